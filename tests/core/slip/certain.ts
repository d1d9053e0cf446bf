import { defaultFigures, type Figures } from '../../../src/core/assumptions/figures';
import type { Draws } from '../../../src/core/slip/draws';
import type { SlipSetting } from '../../../src/core/slip/rope-team-on-slope';
import { teamOf } from './teams';

/** One slip in which nothing is left to chance. */
export interface Certain {
  readonly climbers: number;
  readonly muSliding: number;
  readonly muArresting: number;
  readonly slackM: number;
  readonly modulusN: number;
  /** Part of a spacing, or of a pitch. */
  readonly progress: number;
  readonly reactionS: number;
  /** By climber, highest first: able and ready, or not. */
  readonly able: readonly boolean[];
  /** Two for each interval, highest first; or anchor piece and runners. */
  readonly strengthN: readonly number[];
}

export const certain: Certain = {
  climbers: 2,
  muSliding: 0.1,
  muArresting: 0.8,
  slackM: 1,
  modulusN: 12_000,
  progress: 0.5,
  reactionS: 1,
  able: [false, false, false],
  strengthN: [],
};

const one = (value: number): Float64Array => Float64Array.of(value);

export function certainDraws(given: Certain): Draws {
  const each = <T>(of: (i: number) => T) => Array.from({ length: given.climbers }, (_, i) => of(i));
  return {
    count: 1,
    slope: one(0),
    muSliding: one(given.muSliding),
    muArresting: one(given.muArresting),
    modulusN: one(given.modulusN),
    slackM: one(given.slackM),
    belayedSlackM: one(given.slackM),
    progress: one(given.progress),
    ability: each((i) => one(given.able[i] ? 0 : 0.999_999)),
    reactionS: each(() => one(given.reactionS)),
    strengthN: Array.from({ length: 12 }, (_, slot) => one(given.strengthN[slot] ?? 1e9)),
  };
}

/** Ability counts only as drawn: no ground is so gentle that anybody stops. */
export const figuresWithoutEase: Figures = {
  ...defaultFigures,
  slope: { ...defaultFigures.slope, easyBelowDeg: 0, easyOverDeg: 1 },
};

export const settingOf = (climbers: number, more: Partial<SlipSetting> = {}): SlipSetting => ({
  climbers: teamOf(...Array.from({ length: climbers }, () => 'solid' as const)).climbers,
  intervalM: 12,
  piecesPerInterval: 1,
  devices: 0,
  goingDown: false,
  betaDeg: 0,
  figures: figuresWithoutEase,
  ...more,
});
