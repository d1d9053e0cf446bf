import type { Figures } from '../assumptions/figures';
import type { Mark } from '../domain/mark';
import type { Override } from '../domain/project';
import type { Snow } from '../domain/snow';
import type { RunOutClass, Station } from '../domain/station';
import type { Place } from './allowed-modes';
import { stationsWithin, withBorders, type Bordered } from './borders';
import { goingDown } from './direction';
import { crossedKinds, meetLine, type LineMark } from './line-marks';
import { lineOnSphere } from './local-plane';

/** Room for the belayer and those who wait, on either side of what is crossed, metres (judgement). */
export const stanceM = 5;

/** All that is known about one station before anything is decided. */
export interface Condition extends Place {
  readonly station: Station;
  /** Marks with an extent here. */
  readonly marks: readonly LineMark[];
  /** A gap in the snow to be crossed here, or the stance before or behind it. */
  readonly crossing: LineMark | null;
  /** The override whose mode stands here. */
  readonly override: Override | null;
  /** The run-out class was set by the guide. */
  readonly runOutOverridden: boolean;
  /** The clock has changed the snow before the team comes here. */
  readonly snowChanged: boolean;
}

/** Snow that is no longer what it was in the morning, on a stretch. */
export interface ChangedSnow {
  readonly fromM: number;
  readonly toM: number;
  readonly snow: Snow;
}

export interface LineToPlan {
  readonly stations: readonly Station[];
  readonly lengthM: number;
  readonly snow: Snow;
  readonly overrides: readonly Override[];
  readonly marks: readonly Mark[];
}

/** The line with a station at every border and with its marks placed: what does not depend on the clock. */
export interface PreparedLine extends LineToPlan, Bordered {
  readonly lineMarks: readonly LineMark[];
  readonly down: Uint8Array;
}

export function prepareLine(
  line: LineToPlan,
  figures: Figures,
  furtherBordersM: readonly number[],
): PreparedLine {
  const sphere = lineOnSphere(line.stations);
  const lineMarks = line.marks.flatMap((mark) => meetLine(mark, sphere, figures.runOut.hazardReachM));
  const bordersM = [
    ...line.overrides.flatMap(({ fromM, toM }) => [fromM, toM]),
    ...lineMarks.filter(({ fromM, toM }) => toM > fromM).flatMap((mark) => Object.values(roomOf(mark))),
    ...furtherBordersM,
  ];
  const bordered = withBorders(line.stations, bordersM);
  return { ...line, ...bordered, lineMarks, down: goingDown(bordered.stations) };
}

/** What a mark takes of the line: a crossing with its stances. */
export function roomOf({ mark, fromM, toM }: LineMark): { readonly fromM: number; readonly toM: number } {
  return crossedKinds.has(mark.kind) ? { fromM: fromM - stanceM, toM: toM + stanceM } : { fromM, toM };
}

type Draft = { -readonly [K in keyof Condition]: Condition[K] };

/** What holds at each station; the later of two overrides counts, and bare ice whatever snow is painted over it. */
export function conditionsOf(line: PreparedLine, changed: readonly (ChangedSnow | null)[] = []): Condition[] {
  const drafts: Draft[] = line.stations.map((station, i) => ({
    station,
    designSlopeDeg: station.designSlopeDeg,
    slopeSigmaDeg: station.slopeSigmaDeg,
    betaDeg: station.betaDeg,
    runOut: 'deadly',
    snow: line.snow,
    goingDown: line.down[i] === 1,
    onRock: false,
    marks: [],
    crossing: null,
    override: null,
    runOutOverridden: false,
    snowChanged: false,
  }));

  const painted = new Map<Draft, RunOutClass>();
  for (const override of line.overrides) {
    for (const draft of within(line, drafts, override)) {
      if (override.snow !== null) draft.snow = override.snow;
      if (override.mode !== null) draft.override = override;
      if (override.runOut !== null) painted.set(draft, override.runOut);
    }
  }
  drafts.forEach((draft, i) => {
    const change = changed[i];
    if (change) [draft.snow, draft.snowChanged] = [change.snow, true];
  });
  for (const lineMark of line.lineMarks) {
    const room = roomOf(lineMark);
    if (room.toM <= room.fromM) continue;
    for (const draft of within(line, drafts, room)) {
      draft.marks = [...draft.marks, lineMark];
      if (crossedKinds.has(lineMark.mark.kind)) draft.crossing = lineMark;
      if (lineMark.mark.kind === 'rock') draft.onRock = true;
      if (lineMark.mark.kind === 'ice') draft.snow = { ...draft.snow, hardness: 'I' };
    }
  }
  for (const draft of drafts) {
    const byGuide = painted.get(draft);
    // How far a slide runs depends on the snow; unknown counts as the worst.
    draft.runOut = byGuide ?? draft.station.runOut?.[draft.snow.hardness].class ?? 'deadly';
    draft.runOutOverridden = byGuide !== undefined;
  }
  return drafts;
}

function within(
  line: PreparedLine,
  drafts: readonly Draft[],
  stretch: { readonly fromM: number; readonly toM: number },
): Draft[] {
  const { first, end } = stationsWithin(line.stations, stretch);
  return drafts.slice(first, end);
}
