import { extname } from 'node:path';
import type { Figures } from '../core/assumptions/figures';
import type { LngLat } from '../core/domain/coordinates';
import type { Note } from '../core/domain/problem';
import type { Project } from '../core/domain/project';
import { cellOf, ProblemError, type Raster } from '../core/domain/raster';
import { hardnesses } from '../core/domain/snow';
import { overlapCode, seamCode, type GroundProfile } from '../core/domain/station';
import { planGeoJson } from '../core/files/geojson-write';
import { planGpx } from '../core/files/gpx-write';
import { segmentsCsv } from '../core/files/plan-csv';
import type { PlanExport } from '../core/files/plan-export';
import { planJson } from '../core/files/plan-json';
import { readGround } from '../core/ground/read-ground';
import { makeStations } from '../core/line/stations';
import { looksSwapped } from '../core/line/track-against-ground';
import { clockIso, instantOf } from '../core/pace/clock';
import { conditionMatrix, partyWithDevices, wayBackMatrix } from '../core/plan/condition-matrix';
import { makePlan } from '../core/plan/make-plan';
import { snowsOnLine } from '../core/plan/snows';
import { terrainSaid } from '../core/plan/terrain-said';
import { otherTeams, type OtherTeam } from '../core/plan/other-teams';
import { lookupIn } from '../core/plan/slip-lookup';
import { pointsBack } from '../core/plan/way';
import { makeSheet } from '../core/sheet/make-sheet';
import { sheetHtml } from '../core/sheet/sheet-html';
import type { SlipTables } from '../core/slip/tables';
import type { ConditionMatrix } from '../core/domain/segment';
import { readArguments, UsageError, type Arguments } from './arguments';
import { figuresOf } from './figures';
import { lineFile, lineOptions, nameOf, paintedElsewhere, readLine, stepOf, valueOf } from './inputs';
import { now } from './now';
import { mayWrite, outOf, progressLine, writeOut } from './output';
import { openRasters, rasterOptions } from './rasters';
import { readSettings } from './settings';
import { startTables, type TablesAsked, type TablesBeingBuilt } from './slip-threads';

export const planHelp = `plan --line F --elevation F... [--project F] [--snow P] [--start ISO] [--step 5] [--track n] [--answer CODE=value] [--crs EPSG:n] [--elevation-unit m|ft|usft|cm] [--format json,csv,gpx,geojson,html] [--out F]
  The whole job: a technique for every stretch, with reasons, minutes, pieces and gatherings.
  Without --line the line of the project is planned.
  Several formats need --out; each goes beside it with its own ending.`;

const formats = ['json', 'csv', 'gpx', 'geojson', 'html'] as const;
type Format = (typeof formats)[number];

export async function plan(words: readonly string[]): Promise<void> {
  const args = readArguments(
    words,
    {
      ...lineOptions,
      ...rasterOptions,
      project: { type: 'string' },
      snow: { type: 'string' },
      start: { type: 'string' },
      step: { type: 'string' },
      format: { type: 'string' },
    },
    ['elevation'],
  );
  const wanted = formatsOf(args);
  const placeOf = placesOf(outOf(args), wanted.length);
  mayWrite(wanted.map(placeOf), args);
  const { line, positions, notes: lineNotes } = await readLine(args);
  checkLine(positions, nameOf(lineFile(args)));
  const settings = await readSettings(args);
  const project: Project = {
    ...settings.project,
    name: line.name,
    line,
    schedule: scheduleOf(args, settings.project),
  };
  const slips = startSlips(project);
  const { rasters, close } = await openRasters(args, {
    known: settings.project.terrain,
    wantsChecksum: true,
  });
  try {
    const notes = [...lineNotes, ...settings.notes, ...paintedElsewhere(settings.project, line)];
    const all = await planOn(args, { project, positions, rasters, notes, slips });
    for (const format of wanted) await writeOut(textAs(format, all), placeOf(format), args);
  } finally {
    close();
  }
}

function checkLine(positions: readonly LngLat[], subject: string): void {
  if (positions.length > 1) return;
  throw new ProblemError({
    code: 'IN-008',
    subject,
    place: null,
    title: positions.length === 0 ? 'the line has no points' : 'the line has one point only',
    remedy: 'Give a line of two places or more.',
  });
}

interface Given {
  readonly project: Project;
  readonly positions: readonly LngLat[];
  readonly rasters: readonly Raster[];
  readonly notes: readonly Note[];
  readonly slips: Slips;
}

type Written = PlanExport & {
  readonly matrix: ConditionMatrix;
  readonly wayBackMatrix: ConditionMatrix | null;
};

async function planOn(args: Arguments, given: Given): Promise<Written> {
  const { project, rasters, slips } = given;
  const { figures, withDevices, others } = slips;
  const profile = await groundUnder(args, given, figures);
  const wayBackProfile = await otherGroundBack(args, given, figures);
  const ofGround = profile.notes.filter(({ code }) => code !== seamCode && code !== overlapCode);
  const notes = [
    ...given.notes,
    ...stepNotes(args, rasters),
    ...rasters.flatMap((raster) => raster.notes),
    ...ofGround,
  ];

  const progress = progressLine('following modelled slips');
  const [tables, ...more] = (await slips.finish(progress.at)) as [SlipTables, ...SlipTables[]];
  progress.end();
  const deviceTables = more.splice(0, withDevices.length)[0] ?? tables;
  const otherAbilities = others.map(({ from, to }, i) => ({ from, to, lookup: lookupIn(more[i]!) }));
  const input = {
    ...{ profile, project, figures, tables, otherAbilities },
    ...(wayBackProfile && { wayBackProfile }),
  };
  const plan = makePlan({ ...input, today: now().toISOString().slice(0, 10) });
  const matrix = conditionMatrix({ ...input, plan, deviceTables });
  const terrain = terrainSaid(profile.terrain, project);
  const wayBack = wayBackMatrix(plan, { ...input, deviceTables });
  return { project, plan, terrain, notes, matrix, wayBackMatrix: wayBack };
}

function stepNotes(args: Arguments, rasters: readonly Raster[]): Note[] {
  const { note } = stepOf(args, rasters);
  return note === null ? [] : [{ code: 'IN-009', subject: '--step', text: note }];
}

interface AllTables {
  /** For every hardness. */
  readonly own: TablesAsked;
  /** The same team with capture devices, where it has none. */
  readonly withDevices: readonly TablesAsked[];
  /** A weaker and a stronger team, in the snow on the line. */
  readonly others: readonly (Pick<OtherTeam, 'from' | 'to'> & { readonly asked: TablesAsked })[];
}

/** Tables that are being built, and what for. */
interface Slips extends AllTables, TablesBeingBuilt {
  readonly figures: Figures;
}

/** Other cores begin while this one reads the ground. */
function startSlips(project: Project): Slips {
  const figures = figuresOf(project);
  const all = tablesFor(project, figures);
  const asked = [all.own, ...all.withDevices, ...all.others.map((other) => other.asked)];
  return { figures, ...all, ...startTables(asked) };
}

function tablesFor(project: Project, figures: Figures): AllTables {
  const { party, turnsRoundGoingDown } = project;
  const options = { quality: 'final', turnsRoundGoingDown } as const;
  const own = { party, figures, snows: snowsOnLine(project, hardnesses), options };
  const devices: TablesAsked = {
    ...own,
    party: partyWithDevices(party),
    options: { ...options, variants: ['running-capture'] },
  };
  return {
    own,
    withDevices: party.rack.captureDevices > 0 ? [] : [devices],
    others: otherTeams(party).map(({ from, to, party: other }) => ({
      ...{ from, to },
      asked: { ...own, party: other, snows: snowsOnLine(project) },
    })),
  };
}

/** Reads the ground; a raster that holds none of the line is the user's to mend. */
async function groundUnder(args: Arguments, given: Given, figures: Figures): Promise<GroundProfile> {
  const profile = await groundAlong(given.positions, args, given, figures);
  if (profile.stations.every(({ elevationM }) => elevationM === null)) {
    throw new ProblemError({
      code: 'IN-005',
      subject: nameOf(lineFile(args)),
      place: null,
      title: `no part of the line lies on ${given.rasters.map(({ name }) => name).join(', ')}`,
      remedy: isSwapped(given)
        ? 'With longitude and latitude exchanged it would: if they stand in the wrong order, mend the file.'
        : 'Give a raster that covers the line, or check the coordinate system with --crs.',
    });
  }
  return profile;
}

const isSwapped = ({ positions, rasters }: Given): boolean =>
  looksSwapped(positions, (position) =>
    rasters.some(({ affine, frame, widthPx, heightPx }) => {
      const [col, row] = cellOf(affine, frame.fromLngLat(position));
      return col >= 0 && col <= widthPx && row >= 0 && row <= heightPx;
    }),
  );

/** The ground under the other line by which the project says the team comes back; null: none, or there is no such line. */
async function otherGroundBack(
  args: Arguments,
  given: Given,
  figures: Figures,
): Promise<GroundProfile | null> {
  const points = pointsBack(given.project, given.positions.at(-1));
  if (points === null) return null;
  return groundAlong(
    points.map(({ position }) => position),
    args,
    given,
    figures,
  );
}

async function groundAlong(
  positions: readonly LngLat[],
  args: Arguments,
  { project, rasters }: Given,
  figures: Figures,
): Promise<GroundProfile> {
  const { stepM } = stepOf(args, rasters);
  const progress = progressLine('reading the ground');
  const profile = await readGround({
    stations: makeStations(positions, { stepM, alsoAtM: [] }),
    rasters,
    marks: project.marks,
    figures,
    sigmaZM: rasters.map(
      ({ name }) => project.terrain.find(({ fileName }) => fileName === name)?.sigmaZM ?? null,
    ),
    stepM,
    onProgress: progress.at,
  });
  progress.end();
  return profile;
}

function formatsOf(args: Arguments): readonly Format[] {
  const text = args.flag('json') ? 'json' : (args.text('format') ?? 'json');
  const wanted = text.split(',').map((name) => name.trim());
  for (const name of wanted) {
    if (!(formats as readonly string[]).includes(name))
      throw new UsageError(`--format takes ${formats.join(', ')}; found "${name}"`);
  }
  if (wanted.length > 1 && outOf(args) === null)
    throw new UsageError('several formats need --out: each is written beside it with its own ending');
  return wanted as Format[];
}

/** Several formats stand beside each other, each with its own ending. */
const placesOf =
  (out: string | null, count: number) =>
  (format: Format): string | null =>
    out === null || count === 1 ? out : `${out.slice(0, out.length - extname(out).length)}.${format}`;

/** `--start 2026-01-17T04:00` in the project's zone, or with an offset of its own: `2026-01-17T05:00Z`. */
function scheduleOf(args: Arguments, { schedule }: Project): Project['schedule'] {
  const start = args.text('start');
  if (start === null) return schedule;
  const { zone } = schedule;
  const instant = instantOf(start, zone, '--start');
  if (!instant.ok && instant.problem.code === 'CLOCK-002')
    throw new UsageError(
      `--start takes a date and time, 2026-01-17T04:00 or 2026-01-17T04:00-01:00; found "${start}"`,
    );
  const withOffset = clockIso(valueOf(instant), zone);
  const local = withOffset.slice(0, '2026-01-17T04:00:00'.length);
  // A time that the clocks show twice is only plain with its offset.
  return { ...schedule, start: instantOf(local, zone).ok ? local : withOffset };
}

function textAs(format: Format, all: Written): string {
  switch (format) {
    case 'json':
      return planJson(all);
    case 'csv':
      return segmentsCsv(all);
    case 'gpx':
      return planGpx(all.project, all.plan);
    case 'geojson':
      return planGeoJson(all.project, all.plan);
    case 'html':
      return sheetHtml(makeSheet({ ...all, madeAt: now().toISOString() }), { withOverleaf: true });
  }
}
