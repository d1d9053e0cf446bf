import { variantMode, type Mode } from '../domain/mode';
import type { Flip } from '../domain/segment';
import { hardnesses, hardnessName, type Hardness } from '../domain/snow';
import { runOutClasses } from '../domain/station';
import { digits } from '../wording/numbers';
import { choicesAt, type Choice, type Rules } from './allowed-modes';
import type { Condition } from './conditions';
import type { Decided } from './decide';
import type { SlipLookup } from './slip-lookup';
import type { Span } from './spans';
import { byNumbers, modeOf, stateIndex } from './states';

/** The same team with every climber's ability a step weaker or stronger. */
export interface OtherAbility {
  /** As it is and as it would be: `B solid, C solid` and `B learning, C learning`. */
  readonly from: string;
  readonly to: string;
  readonly lookup: SlipLookup;
}

export interface Model {
  readonly rules: Rules;
  readonly lookup: SlipLookup;
  readonly otherAbilities: readonly OtherAbility[];
}

/** How far the slope is tried to either side. Degrees. */
const slopeReachDeg = 10;

/** The station that decides a segment: it asks for the most protective variant; of several, the steepest. */
export function decidingStation({ conditions, choices }: Decided, span: Span): number {
  let [best, bestRank] = [span.first, -1];
  for (let i = span.first; i < span.end; i++) {
    const [condition, choice] = [conditions[i]!, choices[i]!];
    const asked = stateIndex[byNumbers(condition, choice)[0]];
    const rank = asked * 100 + (condition.designSlopeDeg ?? 0);
    if (rank > bestRank) [best, bestRank] = [i, rank];
  }
  return best;
}

/** The nearest change of each input, to either side, that would give another mode at this station. */
export function flipsAt(condition: Condition, choice: Choice, model: Model): Flip[] {
  if (condition.override !== null || condition.crossing !== null || choice.rule === 'no-data') return [];
  const now = modeOf(byNumbers(condition, choice)[0]);
  const modeAt = (changed: Condition, rules = model.rules, lookup = model.lookup): Mode =>
    modeOf(byNumbers(changed, choicesAt(changed, rules, lookup, 'first'))[0]);

  return [
    ...hardnessFlips(condition, now, modeAt, model.lookup),
    ...slopeFlips(condition, now, modeAt),
    ...model.otherAbilities.flatMap(({ from, to, lookup }): Flip[] => {
      // Tables of other teams follow later: of a snow just stated they know nothing yet.
      if (!lookup.knows(condition.snow)) return [];
      const mode = modeAt(condition, model.rules, lookup);
      return mode === now ? [] : [{ input: 'ability', from, to, mode }];
    }),
    ...toleranceFlips(choice, now),
    ...runOutFlips(condition, now, modeAt),
  ];
}

type ModeAt = (changed: Condition) => Mode;

/** The first of the candidates, in order, that gives another mode. */
function firstFlip<T>(candidates: readonly T[], now: Mode, modeOfCandidate: (candidate: T) => Mode) {
  for (const candidate of candidates) {
    const mode = modeOfCandidate(candidate);
    if (mode !== now) return [{ candidate, mode }];
  }
  return [];
}

function hardnessFlips(condition: Condition, now: Mode, modeAt: ModeAt, lookup: SlipLookup): Flip[] {
  if (condition.marks.some(({ mark }) => mark.kind === 'ice')) return [];
  const at = hardnesses.indexOf(condition.snow.hardness);
  const canAsk = (hardness: Hardness) => lookup.knows({ ...condition.snow, hardness });
  const sides = [hardnesses.slice(0, at).reverse().filter(canAsk), hardnesses.slice(at + 1).filter(canAsk)];
  return sides.flatMap((side) =>
    firstFlip(side, now, (hardness) => {
      const runOut = condition.runOutOverridden
        ? condition.runOut
        : (condition.station.runOut?.[hardness].class ?? 'deadly');
      return modeAt({ ...condition, snow: { ...condition.snow, hardness }, runOut });
    }).map(({ candidate, mode }): Flip => {
      const [from, to] = [hardnessName[condition.snow.hardness], hardnessName[candidate]];
      return { input: 'hardness', from, to, mode };
    }),
  );
}

function slopeFlips(condition: Condition, now: Mode, modeAt: ModeAt): Flip[] {
  const slopeDeg = condition.designSlopeDeg!;
  const steps = Array.from({ length: slopeReachDeg }, (_, i) => i + 1);
  const sides = [
    steps.map((step) => slopeDeg - step).filter((s) => s >= 0),
    steps.map((step) => slopeDeg + step),
  ];
  return sides.flatMap((side) =>
    firstFlip(side, now, (designSlopeDeg) => modeAt({ ...condition, designSlopeDeg })).map(
      ({ candidate, mode }): Flip => ({
        input: 'slope',
        from: `${digits(slopeDeg)}°`,
        to: `${digits(candidate)}°`,
        mode,
      }),
    ),
  );
}

function toleranceFlips({ rule, unheldPct, tolerancePct }: Choice, now: Mode): Flip[] {
  if (rule !== 'shares' || tolerancePct === null) return [];
  const tried = Object.entries(unheldPct) as [keyof typeof unheldPct, number][];
  const modeWithin = (mayPct: number): Mode => {
    const first = tried.find(([, pct]) => pct <= mayPct);
    return first === undefined ? 'none-holds' : variantMode[first[0]];
  };
  // Whole shares, as a tolerance is entered: the strictest that still admits a way, and one less.
  const admits = [...new Set(tried.map(([, pct]) => Math.ceil(pct - 1e-9)))].sort((a, b) => a - b);
  const stricter = admits.map((pct) => pct - 1).filter((pct) => pct >= 0 && pct < tolerancePct);
  const laxer = admits.filter((pct) => pct > tolerancePct && pct <= 100);
  return [stricter.reverse(), laxer].flatMap((side) =>
    firstFlip(side, now, modeWithin).map(({ candidate, mode }): Flip => ({
      input: 'tolerance',
      from: `${digits(tolerancePct)} of 100`,
      to: `${digits(candidate)} of 100`,
      mode,
    })),
  );
}

function runOutFlips(condition: Condition, now: Mode, modeAt: ModeAt): Flip[] {
  const at = runOutClasses.indexOf(condition.runOut);
  const sides = [runOutClasses.slice(0, at).reverse(), runOutClasses.slice(at + 1)];
  return sides.flatMap((side) =>
    firstFlip(side, now, (runOut) => modeAt({ ...condition, runOut })).map(({ candidate, mode }): Flip => ({
      input: 'run-out',
      from: condition.runOut,
      to: candidate,
      mode,
    })),
  );
}
