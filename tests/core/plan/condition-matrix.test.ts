import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { hardnesses } from '../../../src/core/domain/snow';
import { matrixWith } from '../../../src/core/plan/condition-matrix';
import { planWith } from '../../../src/core/plan/make-plan';
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
        fromM: 0,
        toM: 100,
        mode: null,
        snow: { hardness: 'K', wetness: 'D' },
        runOut: null,
        note: '',
      },
    ],
  });
  const plan = planWith(fakeSlips, { profile, project, figures, settling: false });
  const { columns } = matrixWith(lookups, { profile, project, figures, plan });

  test('has the whole plan under every hardness, with and without capture devices', () => {
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
    const onlyP = { ...fakeSlips, knows: ({ hardness }: { hardness: string }) => hardness === 'P' };
    const some = matrixWith([{ captureDevices: false, lookup: onlyP }], { profile, project, figures, plan });
    expect(some.columns.map(({ hardness }) => hardness)).toEqual(['P']);
  });
});
