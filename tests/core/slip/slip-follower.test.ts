import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { drawSlips } from '../../../src/core/slip/draws';
import { OnePitch } from '../../../src/core/slip/one-pitch';
import { OneSlip } from '../../../src/core/slip/one-slip';
import {
  devicesOnPieces,
  foldedBetaDeg,
  slipFollower,
  spacingM,
  type WayToGo,
} from '../../../src/core/slip/slip-follower';
import { dry, teamOf } from './teams';

const party = { ...teamOf('expert', 'solid', 'solid'), rack: { pickets: 6, captureDevices: 3 } };
const rope = { ...party.rope, intervalM: 12 };

test('pieces stand an interval apart, two of them half an interval; without pieces there is no distance', () => {
  expect(spacingM('running', rope)).toBe(12);
  expect(spacingM('running-capture', rope)).toBe(12);
  expect(spacingM('running-double', rope)).toBe(6);
  expect(spacingM('roped', rope)).toBeNull();
  expect(spacingM('pitched', rope)).toBeNull();
});

test.each([
  [0, 0],
  [35, 35],
  [90, 90],
  [100, 80],
  [180, 0],
  [215, 35],
  [-35, 35],
  [350, 10],
])('%d degrees to the fall line are %d whichever way one goes', (betaDeg, folded) => {
  expect(foldedBetaDeg(betaDeg)).toBeCloseTo(folded, 12);
});

test('one device stays in the hand of the lead', () => {
  const carrying = (captureDevices: number) => ({
    party: { ...party, rack: { pickets: 6, captureDevices } },
  });
  expect([0, 1, 2, 5].map((devices) => devicesOnPieces(carrying(devices)))).toEqual([0, 0, 1, 4]);
  expect(devicesOnPieces({ ...carrying(0), allDevices: true })).toBe(Infinity);
});

/** How every slip of a climber ends, and with what load on a piece. */
function slips(way: Partial<WayToGo>): string {
  const given = { party, variant: 'running', snow: dry('P'), ...way } as const;
  const draws = drawSlips(3, party.rope, given.snow, defaultFigures, 64);
  const slip = slipFollower(given, 10, defaultFigures, draws);
  const found: string[] = [];
  for (let i = 0; i < draws.count; i++) {
    slip.draw(i);
    slip.standOn(35);
    for (let slipper = 0; slipper < 3; slipper++)
      found.push(`${slip.follow(slipper)} ${slip.loadN.toFixed(3)}`);
  }
  return found.join('\n');
}

test('a pitch is followed as a pitch, all else as a rope team', () => {
  const draws = drawSlips(3, party.rope, dry('P'), defaultFigures, 1);
  const of = (variant: WayToGo['variant']) =>
    slipFollower({ party, variant, snow: dry('P') }, 0, defaultFigures, draws);
  expect(of('pitched')).toBeInstanceOf(OnePitch);
  for (const variant of ['roped', 'running', 'running-double', 'running-capture'] as const) {
    expect(of(variant)).toBeInstanceOf(OneSlip);
  }
});

test('devices hold on the way up only, and only where they are used', () => {
  expect(slips({ variant: 'running-capture' })).not.toBe(slips({ variant: 'running' }));
  expect(slips({ variant: 'running-capture', goingDown: true })).toBe(
    slips({ variant: 'running', goingDown: true }),
  );
  expect(slips({ allDevices: true })).toBe(slips({}));
  expect(slips({ variant: 'running-double' })).not.toBe(slips({ variant: 'running' }));
});

test('snow that holds nothing is snow without pieces', () => {
  const figures = {
    ...defaultFigures,
    snow: { ...defaultFigures.snow, F: { ...defaultFigures.snow.F, pieceKN: 0 } },
  };
  const draws = drawSlips(3, party.rope, dry('F'), figures, 16);
  const ends = (variant: WayToGo['variant']) => {
    const slip = slipFollower({ party, variant, snow: dry('F') }, 0, figures, draws);
    return Array.from({ length: draws.count }, (_, i) => {
      slip.draw(i);
      slip.standOn(40);
      return `${slip.follow(1)} ${slip.loadN}`;
    });
  };
  expect(ends('running')).toEqual(ends('roped'));
  expect(ends('running').every((end) => end.endsWith(' 0'))).toBe(true);
});
