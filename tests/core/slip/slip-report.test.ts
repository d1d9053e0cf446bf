import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { simulateShares } from '../../../src/core/slip/shares';
import { sharesRange } from '../../../src/core/slip/shares-range';
import { slipReport } from '../../../src/core/slip/slip-report';
import { dry } from './teams';

const question = { party: defaultParty, snow: dry('P'), slopeDeg: 30, betaDeg: 0, figures: defaultFigures };

test('the report has all four modes, each with the same entries', () => {
  const report = slipReport(question);
  expect(Object.keys(report)).toEqual(['roped', 'runningBelay', 'runningBelayCapture', 'pitchedBelay']);
  for (const mode of Object.values(report)) {
    expect(Object.keys(mode).toSorted()).toEqual(
      [
        'unheld',
        'itself',
        'ownArrest',
        'mates',
        'piece',
        'leadPulledOff',
        'bySlipper',
        'pieceLoadKN',
      ].toSorted(),
    );
    expect(mode.bySlipper).toHaveLength(3);
    const { itself, ownArrest, mates, piece, unheld } = mode;
    expect(Math.abs(itself + ownArrest + mates + piece + unheld - 100)).toBeLessThan(0.3);
    for (const share of [itself, ownArrest, mates, piece, unheld])
      expect(share).toBe(Number(share.toFixed(1)));
  }
});

test('a running belay with devices has one on every piece, whatever the rack holds', () => {
  const { runningBelay, runningBelayCapture } = slipReport(question);
  expect(defaultParty.rack.captureDevices).toBe(0);
  expect(runningBelayCapture.leadPulledOff).toBeLessThan(runningBelay.leadPulledOff / 4);
});

test('no piece, no load', () => {
  expect(slipReport(question).roped.pieceLoadKN).toBeNull();
});

test('half of the loaded pieces take no more than the median', () => {
  const { runningBelay } = slipReport(question);
  const { p50, p95 } = runningBelay.pieceLoadKN!;
  expect(p50).toBeGreaterThan(1);
  expect(p95).toBeGreaterThan(p50);
});

test('fewer devices than pieces are counted as they are: nearest the lead first, one in hand', () => {
  const shares = (captureDevices: number) =>
    simulateShares({
      ...question,
      variant: 'running-capture',
      party: { ...defaultParty, rack: { pickets: 3, captureDevices } },
    });
  const plain = simulateShares({ ...question, variant: 'running' });
  expect(shares(0)).toEqual(plain);
  expect(shares(1)).toEqual(plain);
  expect(shares(2).unheld).toBeLessThan(plain.unheld);
  expect(shares(2).leadPulledOff).toBeLessThan(plain.leadPulledOff / 2);
  expect(shares(3).unheld).toBeLessThan(shares(2).unheld);
  expect(shares(4)).toEqual(shares(3));
});

test('poor friction and strength leave more unheld than good ones, with the shares between them', () => {
  for (const variant of ['roped', 'running', 'pitched'] as const) {
    const input = { ...question, slopeDeg: 32, variant };
    const { low, high } = sharesRange(input);
    const { unheld } = simulateShares(input);
    expect(low.unheld).toBeGreaterThanOrEqual(unheld);
    expect(high.unheld).toBeLessThanOrEqual(unheld);
  }
  const { figures: _, ...byDefault } = question;
  const { low, high } = sharesRange({ ...byDefault, variant: 'running' });
  expect(low.unheld - high.unheld).toBeGreaterThan(20);
});

test('a low-stretch cord loads pieces more', () => {
  const load = (lowStretch: boolean) =>
    simulateShares({
      ...question,
      variant: 'pitched',
      party: { ...defaultParty, rope: { ...defaultParty.rope, lowStretch } },
    }).pieceLoadKN!.p50;
  expect(load(true)).toBeGreaterThan(1.3 * load(false));
});

test('a half rope of the same label is the stiffer one: its label is of a fall of 55 kg (EN 892)', () => {
  const load = (half: boolean) =>
    simulateShares({
      ...question,
      variant: 'pitched',
      party: { ...defaultParty, rope: { ...defaultParty.rope, impactForceKN: 6, half } },
    }).pieceLoadKN!.p50;
  expect(load(true)).toBeGreaterThan(1.05 * load(false));
});
