import type { Totals } from '../../core/domain/segment';
import { digits, lengthText, noneText, riseText, unknownText } from '../../core/wording/numbers';
import { differenceText, durationText } from '../../core/wording/time';
import { timePartNames } from '../../core/wording/time-parts';
import type { Units } from '../../core/wording/units';

export interface TotalLine {
  readonly label: string;
  readonly text: string;
  /** Against the kept plan; null: nothing to compare, or the same. */
  readonly difference: string | null;
}

/** How the time is spent, in the order of the day. Acts that don't occur are "none", not zero minutes. */
export function timeLines(totals: Totals, reference: Totals | null): TotalLine[] {
  return timePartNames.map(([label, key]) => ({
    label,
    text: totals.parts[key] === 0 ? noneText : durationText(totals.parts[key]),
    difference: reference && changed(differenceText(totals.parts[key] - reference.parts[key])),
  }));
}

/** What must be carried and done. */
export function countLines(totals: Totals, reference: Totals | null): TotalLine[] {
  const lines = [
    ['pieces placed', 'pieces'],
    ['pickets at one time', 'pickets'],
    ['capture devices', 'captureDevices'],
    ['gatherings', 'gatherings'],
    ['rotations', 'rotations'],
    ['pitches', 'pitches'],
    ['crossings', 'crossings'],
  ] as const;
  return lines.map(([label, key]) => ({
    label,
    text: totals[key] === 0 ? noneText : digits(totals[key]),
    difference: reference && signed(totals[key] - reference[key]),
  }));
}

/** Length and rise of the line, and how much of it nobody knows the ground of. */
export function groundLine(totals: Totals, units: Units): string {
  const rise = riseText(totals.ascentM, totals.descentM, units);
  const unknownM = totals.byMode['no-data'].lengthM;
  const unknown = unknownM > 0 ? ` (${lengthText(unknownM, units)} without ground data)` : '';
  return `${lengthText(totals.lengthM, units)}${unknown}, ${rise === unknownText ? 'rise unknown' : rise}`;
}

const changed = (text: string) => (text === 'no difference' ? null : text);

function signed(change: number): string | null {
  if (change === 0) return null;
  return change > 0 ? `+${change}` : `\u2212${Math.abs(change)}`;
}
