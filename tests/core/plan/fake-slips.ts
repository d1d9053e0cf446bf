import type { Variant } from '../../../src/core/domain/mode';
import type { SlipLookup } from '../../../src/core/plan/slip-lookup';

/** A slip model of straight lines: each variant begins to fail at a slope and fails wholly 25 degrees on. Harder snow, sooner. */
const failsFromDeg: Readonly<Record<Variant, number>> = {
  roped: 20,
  running: 28,
  'running-capture': 36,
  'running-double': 32,
  pitched: 48,
};

const sooner = { F: -8, '4F': -6, '1F': -3, P: 0, K: 5, I: 30 } as const;

export const fakeSlips: SlipLookup = {
  unheldAt: ({ variant, slopeDeg, snow }) =>
    Math.min(100, Math.max(0, (slopeDeg - failsFromDeg[variant] + sooner[snow.hardness]) * 4)),
  sharesAt: (place) => {
    const unheld = fakeSlips.unheldAt(place);
    return {
      itself: 100 - unheld,
      ownArrest: 0,
      mates: 0,
      piece: 0,
      unheld,
      leadPulledOff: 0,
      bySlipper: [],
      pieceLoadKN: null,
    };
  },
  knows: () => true,
};
