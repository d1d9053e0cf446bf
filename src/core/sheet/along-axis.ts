import type { Plan } from '../domain/segment';
import { linearScale, roundTicks, timeTicks, type Scale } from './axis';
import { alongAt, paceKnots, secondsAt } from './pace-axis';
import { digits, thin } from '../wording/numbers';
import { clockText, durationText } from '../wording/time';
import { metresPerFoot, metresPerMile, type Units } from '../wording/units';

/** The part of the line that is seen, metres along it. */
export type ViewWindow = readonly [fromM: number, toM: number];

export type AxisKind = 'distance' | 'time';

export interface AlongAxis {
  /** Metres along the line to pixels, whichever axis is shown. */
  readonly x: Scale;
  /** What is shown, metres along the line: less than asked where no time could be computed. */
  readonly shown: ViewWindow;
  readonly ticks: readonly { readonly px: number; readonly label: string }[];
}

interface Place {
  readonly leftPx: number;
  readonly rightPx: number;
}

export function distanceAxis(shown: ViewWindow, units: Units, { leftPx, rightPx }: Place): AlongAxis {
  const x = linearScale(shown, [leftPx, rightPx]);
  const isLong = shown[1] - shown[0] >= (units === 'metric' ? 1500 : 0.8 * metresPerMile);
  const unitM = units === 'metric' ? (isLong ? 1000 : 1) : isLong ? metresPerMile : metresPerFoot;
  const unit = units === 'metric' ? (isLong ? 'km' : 'm') : isLong ? 'mi' : 'ft';
  const values = roundTicks(shown[0] / unitM, shown[1] / unitM, Math.max(2, (rightPx - leftPx) / 110));
  const step = (values[1] ?? 1) - (values[0] ?? 0);
  const decimals = Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
  return {
    x,
    shown,
    ticks: values.map((value) => ({
      px: x.toPx(value * unitM),
      label: `${digits(value, decimals)}${thin}${unit}`,
    })),
  };
}

/** Time instead of distance: clock times where the plan has a start, else hours used up. */
export function timeAxis(plan: Plan, asked: ViewWindow, { leftPx, rightPx }: Place): AlongAxis {
  const knots = paceKnots(plan.segments);
  const endM = knots.at(-1)!.alongM;
  const shown: ViewWindow = [Math.min(asked[0], endM), Math.min(asked[1], endM)];
  const span = [secondsAt(knots, shown[0])!, secondsAt(knots, shown[1])!] as const;
  const seconds = linearScale(span, [leftPx, rightPx]);
  const start = plan.segments[0]?.arrive ?? null;
  return {
    x: {
      toPx: (alongM) => seconds.toPx(secondsAt(knots, Math.min(alongM, endM))!),
      fromPx: (px) => alongAt(knots, seconds.fromPx(px)) ?? endM,
    },
    shown,
    ticks: timeTicks(span[0], span[1], Math.max(2, (rightPx - leftPx) / 110)).map((s) => ({
      px: seconds.toPx(s),
      label: start === null ? durationText(s) : clockText(laterBy(start, s)),
    })),
  };
}

/** An ISO time with offset, some seconds later, in the same offset. */
function laterBy(iso: string, seconds: number): string {
  const offset = /[+-]\d{2}:\d{2}$/.exec(iso)?.[0] ?? 'Z';
  const local = Date.parse(`${iso.slice(0, iso.length - (offset === 'Z' ? 1 : 6))}Z`);
  return `${new Date(local + seconds * 1000).toISOString().slice(0, 19)}${offset}`;
}
