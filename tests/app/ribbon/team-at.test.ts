import { expect, test } from 'vitest';
import { runRunningBelay } from '../../../src/core/pace/running-belay';
import { lengthOfLogS, teamAt } from '../../../src/app/ribbon/team-at';

/** Judgement's usual times; the sum for this stretch is worked by hand in the tests of the running belay. */
const run = runRunningBelay({
  lengthM: 30,
  climbers: 3,
  intervalM: 15,
  spacingM: 15,
  pickets: 3,
  captureDevices: 0,
  speedMS: 0.2,
  acts: { placeS: 150, clipS: 20, removeS: 45, stanceS: 120, handoverS: 120 },
  lastLeads: false,
});

test('the log ends when the stretch does', () => {
  expect(lengthOfLogS(run.events)).toBeCloseTo(run.timeS, 6);
});

test('nobody runs ahead of the lead, and nobody is further from a neighbour than the interval', () => {
  for (let s = 0; s <= run.timeS; s += 5) {
    const { climbers } = teamAt(run.events, 3, s);
    const at = climbers.map(({ atM }) => atM);
    for (const [i, m] of at.slice(1).entries()) {
      expect(m).toBeLessThanOrEqual((at[i] ?? NaN) + 1e-6);
      expect((at[i] ?? NaN) - m).toBeLessThanOrEqual(15 + 1e-6);
    }
  }
});

test('while the lead and the last are apart there is a piece between them; in the end all are taken out', () => {
  let most = 0;
  for (let s = 200; s < run.timeS; s += 5) {
    const { climbers, piecesM } = teamAt(run.events, 3, s);
    most = Math.max(most, piecesM.length);
    const [lead, last] = [climbers[0]?.atM ?? 0, climbers[2]?.atM ?? 0];
    if (lead - last > 16) expect(piecesM.some((m) => m >= last - 1e-6 && m <= lead + 1e-6)).toBe(true);
  }
  expect(most).toBeLessThanOrEqual(3);
  expect(teamAt(run.events, 3, run.timeS + 1).piecesM).toEqual([]);
});
