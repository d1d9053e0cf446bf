import type { Spread } from '../assumptions/figures';
import type { TimeSpan } from '../domain/segment';

/** All goes quickly, as expected, slowly. */
export const levels = ['quick', 'usual', 'slow'] as const;
export type Level = (typeof levels)[number];

/** Seconds of an act. */
export const actS = ({ low, mode, high }: Spread, level: Level): number =>
  level === 'quick' ? low : level === 'usual' ? mode : high;

/** Metres a second: quick is fast. */
export const speedMS = ({ low, mode, high }: Spread, level: Level): number =>
  level === 'quick' ? high : level === 'usual' ? mode : low;

export const timeSpan = (seconds: (level: Level) => number): TimeSpan => ({
  lowS: seconds('quick'),
  defaultS: seconds('usual'),
  highS: seconds('slow'),
});

export const noTime: TimeSpan = { lowS: 0, defaultS: 0, highS: 0 };

export const addTime = (a: TimeSpan, b: TimeSpan): TimeSpan => ({
  lowS: a.lowS + b.lowS,
  defaultS: a.defaultS + b.defaultS,
  highS: a.highS + b.highS,
});
