import type { Mode } from '../../core/domain/mode';
import type { Plan } from '../../core/domain/segment';

export interface ModeChange {
  readonly fromM: number;
  readonly toM: number;
  readonly was: Mode;
  readonly is: Mode;
}

/** Lines whose lengths differ by more cannot be compared place by place. */
const sameLengthM = 1;

/** Stretches on which two plans of the same line differ in mode, joined where they touch; null for different lines. */
export function modeChanges(reference: Plan, plan: Plan): ModeChange[] | null {
  if (Math.abs(reference.totals.lengthM - plan.totals.lengthM) > sameLengthM) return null;
  const borders = [...reference.segments, ...plan.segments].flatMap(({ fromM, toM }) => [fromM, toM]);
  const sorted = [...new Set(borders)].sort((a, b) => a - b);
  const changes: ModeChange[] = [];
  sorted.slice(1).forEach((toM, i) => {
    const fromM = sorted[i] ?? toM;
    const middleM = (fromM + toM) / 2;
    const [was, is] = [modeAt(reference, middleM), modeAt(plan, middleM)];
    if (was === undefined || is === undefined || was === is) return;
    const last = changes.at(-1);
    if (last?.toM === fromM && last.was === was && last.is === is) {
      changes[changes.length - 1] = { ...last, toM };
    } else changes.push({ fromM, toM, was, is });
  });
  return changes;
}

const modeAt = ({ segments }: Plan, alongM: number): Mode | undefined =>
  segments.find(({ fromM, toM }) => alongM >= fromM && alongM < toM)?.mode;
