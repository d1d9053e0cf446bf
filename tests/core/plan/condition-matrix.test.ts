import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Schedule } from '../../../src/core/domain/project';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { hardnesses } from '../../../src/core/domain/snow';
import {
  conditionMatrix,
  matrixWith,
  partyWithDevices,
  wayBackMatrix,
} from '../../../src/core/plan/condition-matrix';
import { planWith } from '../../../src/core/plan/make-plan';
import { lookupIn } from '../../../src/core/plan/slip-lookup';
import { buildTables } from '../../../src/core/slip/tables';
import { fakeSlips } from './fake-slips';
import { evenly, profileOf, projectOf } from './invented';

const profile = profileOf([
  ...evenly(60, { slopeDeg: 12 }),
  ...evenly(60, { slopeDeg: 23 }),
  ...evenly(60, { slopeDeg: 38 }),
]);
const figures = defaultFigures;
const lookups = [
  { captureDevices: false, lookup: fakeSlips },
  { captureDevices: true, lookup: fakeSlips },
];

describe('condition matrix', () => {
  const project = projectOf({
    overrides: [
      {
        id: 'o',
        way: 'both',
        fromM: 0,
        toM: 100,
        mode: null,
        snow: { hardness: 'K', wetness: 'D' },
        runOut: null,
        note: '',
      },
    ],
  });
  const made = () => {
    const plan = planWith(fakeSlips, { profile, project, figures, settling: false });
    return { plan, columns: matrixWith(lookups, { profile, project, figures, plan }).columns };
  };

  test('has the whole plan under every hardness, with and without capture devices', () => {
    const { plan, columns } = made();
    expect(columns.map(({ hardness, captureDevices }) => `${hardness} ${captureDevices}`)).toEqual([
      ...hardnesses.map((hardness) => `${hardness} false`),
      ...hardnesses.map((hardness) => `${hardness} true`),
    ]);
    for (const { cells, totals } of columns) {
      expect(cells.map(({ segmentId }) => segmentId)).toEqual(plan.segments.map(({ id }) => id));
      expect(totals.lengthM).toBe(profile.lengthM);
    }
  });

  test('each column is the plan that would be made for that snow all along', () => {
    const { plan, columns } = made();
    for (const { hardness, captureDevices, cells, totals } of columns) {
      const rack = { ...project.party.rack, captureDevices: captureDevices ? 3 : 0 };
      const found = planWith(fakeSlips, {
        profile,
        project: {
          ...project,
          overrides: [],
          snow: { hardness, wetness: 'D' },
          party: { ...project.party, rack },
        },
        figures,
        settling: false,
      });
      expect(totals.time.defaultS).toBeCloseTo(found.totals.time.defaultS, 6);
      expect(totals.notComputedBeyondM).toBe(found.totals.notComputedBeyondM);
      expect(totals.pieces).toBe(found.totals.pieces);
      expect(totals.pickets).toBe(found.totals.pickets);
      expect(totals.crossings).toBe(found.totals.crossings);
      expect(totals.captureDevices).toBe(found.totals.captureDevices);
      expect(totals.parts.transitionS).toBeCloseTo(found.totals.parts.transitionS, 6);
      for (const [mode, { lengthM, timeS }] of Object.entries(found.totals.byMode)) {
        const counted = totals.byMode[mode as keyof typeof totals.byMode];
        expect(counted.lengthM).toBeCloseTo(lengthM, 6);
        expect(counted.timeS ?? -1).toBeCloseTo(timeS ?? -1, 6);
      }
      plan.segments.forEach(({ fromM, toM }, i) => {
        const modes = found.segments.filter((s) => s.toM > fromM && s.fromM < toM).map(({ mode }) => mode);
        const parts = cells[i]!.parts;
        expect([...new Set(parts.map(({ mode }) => mode))]).toEqual([...new Set(modes)]);
        expect([parts[0]!.fromM, parts.at(-1)!.toM]).toEqual([fromM, toM]);
        expect(modes).toContain(cells[i]!.mode);
      });
    }
  });

  test('snow that was never asked about has no column', () => {
    const { plan } = made();
    const onlyP = { ...fakeSlips, knows: ({ hardness }: { hardness: string }) => hardness === 'P' };
    const some = matrixWith([{ captureDevices: false, lookup: onlyP }], { profile, project, figures, plan });
    expect(some.columns.map(({ hardness }) => hardness)).toEqual(['P']);
  });
});

test('devices nobody carries have columns of their own, from their own tables', () => {
  const snows = [{ hardness: 'P', wetness: 'D' }] as const;
  const project = projectOf({ party: { ...defaultParty, rack: { pickets: 6, captureDevices: 0 } } });
  const withDevices = partyWithDevices(project.party);
  expect(withDevices.rack.captureDevices).toBe(project.party.climbers.length);
  expect(partyWithDevices(withDevices)).toBe(withDevices);

  const tables = buildTables(project.party, figures, snows, { quality: 'coarse' });
  const deviceTables = buildTables(withDevices, figures, snows, {
    quality: 'coarse',
    variants: ['running-capture'],
  });
  const plan = planWith(lookupIn(tables), { profile, project, figures, settling: true });
  const matrix = (more: object) => conditionMatrix({ profile, project, figures, plan, tables, ...more });
  const progress: number[] = [];
  const { columns } = matrix({ deviceTables, onProgress: (done: number) => progress.push(done) });
  expect(columns.map(({ captureDevices }) => captureDevices)).toEqual([false, true]);
  expect(progress).toEqual([0, 0.5]);
  const used = (column: number) => columns[column]!.cells.map(({ variant }) => variant);
  expect(used(0)).not.toContain('running-capture');
  expect(used(1)).toContain('running-capture');
  expect(matrix({}).columns).toHaveLength(1);

  const carried = { ...project, party: withDevices };
  const own = buildTables(withDevices, figures, snows, { quality: 'coarse' });
  const both = conditionMatrix({ profile, project: carried, figures, plan, tables: own });
  expect(both.columns.map(({ captureDevices }) => captureDevices)).toEqual([false, true]);
});

test('the way back by the same line has modes of its own under every snow; without its ground, or without a way back, it has none', () => {
  const snows = [{ hardness: 'P', wetness: 'D' }] as const;
  const override = { id: 'o', fromM: 0, toM: 100, mode: 'pitched-belay', snow: null, runOut: null } as const;
  const backBy = (wayBack: Schedule['wayBack']) =>
    projectOf({
      overrides: [{ ...override, way: 'both', note: '' }],
      schedule: { ...projectOf().schedule, wayBack },
    });
  const project = backBy('same-line');
  const tables = buildTables(project.party, figures, snows, { quality: 'coarse' });
  const plan = planWith(lookupIn(tables), { profile, project, figures, settling: false });
  const back = wayBackMatrix(plan, { profile, project, figures, tables })!;
  expect(back.columns.map(({ hardness }) => hardness)).toEqual(['P']);
  // The snow is the planned one, so the column repeats the planned way back.
  const planned = plan.wayBack!.segments.map(({ id, mode }) => ({ segmentId: id, mode }));
  expect(back.columns[0]!.cells.map(({ segmentId, mode }) => ({ segmentId, mode }))).toEqual(planned);
  expect(planned.at(-1)!.mode).toBe('pitched-belay');
  expect(back.columns[0]!.totals.lengthM).toBe(profile.lengthM);

  expect(
    wayBackMatrix(plan, { profile, project: backBy({ alternativeId: 'other' }), figures, tables }),
  ).toBeNull();
  expect(wayBackMatrix({ wayBack: null }, { profile, project, figures, tables })).toBeNull();
});

test.each(['the same line', 'another line'])('the way back by %s has its own matrix', (by) => {
  const { schedule } = projectOf();
  const wayBack = by === 'the same line' ? ('same-line' as const) : { alternativeId: 'b' };
  const project = projectOf({ schedule: { ...schedule, wayBack } });
  const wayBackProfile = profileOf([
    ...evenly(40, { slopeDeg: 38, down: true }),
    ...evenly(20, { slopeDeg: 12, down: true }),
  ]);
  const asked = { profile, wayBackProfile, project, figures };
  const plan = planWith(fakeSlips, { ...asked, settling: false }).wayBack!;
  const { columns } = matrixWith(lookups, { ...asked, plan, isWayBack: true });
  const asPlanned = columns.find(
    ({ hardness, captureDevices }) =>
      hardness === project.snow.hardness && captureDevices === project.party.rack.captureDevices > 0,
  )!;
  expect(asPlanned.cells.map(({ mode }) => mode)).toEqual(plan.segments.map(({ mode }) => mode));
  expect(asPlanned.totals.lengthM).toBe(by === 'the same line' ? profile.lengthM : wayBackProfile.lengthM);
});

test('a cell names the most protective of its parts; neighbours alike are one part', () => {
  const grounds = [
    ...evenly(30, { slopeDeg: 12 }),
    ...evenly(30, { slopeDeg: 12, down: true }),
    ...evenly(30, { slopeDeg: 30 }),
    ...evenly(30, { slopeDeg: 12 }),
  ];
  const ground = profileOf(grounds);
  const plan = { segments: [{ ...madeUpSegment(), fromM: 0, toM: ground.lengthM }] };
  const [column] = matrixWith([{ captureDevices: false, lookup: fakeSlips }], {
    profile: ground,
    project: projectOf(),
    figures,
    plan,
  }).columns.filter(({ hardness }) => hardness === 'P');
  expect(column!.cells[0]!.parts.map(({ mode }) => mode)).toEqual(['roped', 'running-belay', 'roped']);
  expect(column!.cells[0]!.mode).toBe('running-belay');
});

const madeUpSegment = () =>
  planWith(fakeSlips, { profile, project: projectOf(), figures, settling: false }).segments[0]!;
