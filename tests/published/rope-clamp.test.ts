import { expect, test } from 'vitest';
import { defaultFigures, type Figures } from '../../src/core/assumptions/figures';
import { defaultParty } from '../../src/core/domain/rope-team';
import { drawSlips } from '../../src/core/slip/draws';
import { ending } from '../../src/core/slip/one-slip';
import { slipFollower } from '../../src/core/slip/slip-follower';

/**
 * Published: EN 567:2013 (UIAA 126), rope clamps: device and rope take 4 kN without damage that impairs function. The model
 * lets a device hold that and no more, however strong the piece.
 */
test('a capture device is counted on for 4 kN', () => {
  expect(defaultFigures.piece.captureDeviceKN).toBe(4);
});

const snow = { hardness: 'P', wetness: 'D' } as const;
const party = { ...defaultParty, climbers: defaultParty.climbers.slice(0, 2) };

const figuresWithDevice = (captureDeviceKN: number): Figures => ({
  ...defaultFigures,
  snow: { ...defaultFigures.snow, P: { ...defaultFigures.snow.P, pieceKN: 1e6 } },
  piece: { ...defaultFigures.piece, hardwareKN: 1e6, captureDeviceKN },
});

test('with pieces of any strength, a follower is held by the device up to 4 kN, above it the lead is pulled off', () => {
  const count = 1024;
  const follower = (figures: Figures) =>
    slipFollower(
      { party, variant: 'running-capture', snow, allDevices: true },
      0,
      figures,
      drawSlips(2, party.rope, snow, figures, count),
    );
  const limited = follower(figuresWithDevice(4));
  const unlimited = follower(figuresWithDevice(1e6));

  let overloaded = 0;
  for (let i = 0; i < count; i++) {
    for (const slip of [limited, unlimited]) {
      slip.draw(i);
      slip.standOn(50);
    }
    if (unlimited.follow(1) !== ending.piece) continue;
    limited.follow(1);
    expect(limited.leadPulledOff).toBe(unlimited.loadN > 4000);
    if (unlimited.loadN > 4000) overloaded++;
  }
  expect(overloaded).toBeGreaterThan(10);
  expect(overloaded).toBeLessThan(count / 2);
});
