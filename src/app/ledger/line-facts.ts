import { modeName, modes } from '../../core/domain/mode';
import type { Plan } from '../../core/domain/segment';
import { turnRoundText } from '../../core/plan/turn-round';
import { digits, lengthText, noneText, riseText } from '../../core/wording/numbers';
import { clockSinceText, durationText, rangeText } from '../../core/wording/time';
import type { Units } from '../../core/wording/units';

/** One fact of several lines, in the order of the lines. */
export interface LineFact {
  readonly label: string;
  readonly texts: readonly string[];
}

/** What tells lines apart, one fact a row; a fact that is "none" on all of them is left out. */
export function lineFacts(plans: readonly Plan[], units: Units): readonly LineFact[] {
  const row = (label: string, text: (plan: Plan) => string): LineFact => ({ label, texts: plans.map(text) });
  const count = (value: number) => (value === 0 ? noneText : digits(value));
  const startOf = (plan: Plan) => plan.segments[0]?.arrive ?? null;
  const hasClock = plans.some((plan) => startOf(plan) !== null);
  const facts = [
    row('time', ({ totals }) => durationText(totals.time.defaultS)),
    row('from, to', ({ totals }) => rangeText(totals.time)),
    ...(hasClock
      ? [
          row('arrival', (plan) => clockSinceText(plan.totals.arrive, startOf(plan))),
          row('turn round by', turnRoundText),
        ]
      : []),
    row('length', ({ totals }) => lengthText(totals.lengthM, units)),
    row('rise', ({ totals }) => riseText(totals.ascentM, totals.descentM, units)),
    ...modes.map((mode) =>
      row(modeName[mode], ({ totals }) => {
        const { lengthM } = totals.byMode[mode];
        return lengthM === 0 ? noneText : lengthText(lengthM, units);
      }),
    ),
    row('pieces placed', ({ totals }) => count(totals.pieces)),
    row('pickets at one time', ({ totals }) => count(totals.pickets)),
    row('gatherings', ({ totals }) => count(totals.gatherings)),
    row('pitches', ({ totals }) => count(totals.pitches)),
    row('crossings', ({ totals }) => count(totals.crossings)),
    row('grave warnings', ({ warnings }) => count(warnings.filter(({ weight }) => weight === 3).length)),
  ];
  return facts.filter(({ texts }) => texts.some((text) => text !== noneText));
}
