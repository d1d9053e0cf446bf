import type { Note, Problem } from '../../domain/problem';
import type { Totals, Warning } from '../../domain/segment';
import type { TerrainSummary } from '../../domain/station';
import type { Decided } from '../decide';
import type { PlannedWay, Planner } from '../plan-way';
import type { TurnRound } from '../turn-round';

/** All that warnings are drawn from. */
export interface Planned extends PlannedWay, Planner {
  readonly totals: Totals;
  readonly terrain: readonly TerrainSummary[];
  /** What was noted while the ground was read. */
  readonly groundNotes: readonly Note[];
  readonly turn: TurnRound | null;
  /** Of a way there whose way back is another line: how far from its end that begins. null: nothing of the kind. */
  readonly otherWayBack: { readonly beginsOffM: number } | 'unread' | null;
  readonly clockProblem: Problem | null;
  /** ISO date of the tour, or of today; null: not known. */
  readonly onDate: string | null;
}

export interface Stretch {
  readonly fromM: number;
  readonly toM: number;
}

export const everywhere = { fromM: null, toM: null } as const;

export function warn(
  code: string,
  weight: Warning['weight'],
  text: string,
  place: Stretch | typeof everywhere = everywhere,
): Warning {
  return { code, weight, text, fromM: place.fromM, toM: place.toM };
}

/** Longest runs of stations that something is true of, as stretches of the line. */
export function stretchesWhere(decided: Decided, is: (station: number) => boolean): Stretch[] {
  const stretches: Stretch[] = [];
  let first: number | null = null;
  for (let i = 0; i <= decided.conditions.length; i++) {
    const here = i < decided.conditions.length && is(i);
    if (here && first === null) first = i;
    if (here || first === null) continue;
    stretches.push({ fromM: decided.edgesM[first]!, toM: decided.edgesM[i]! });
    first = null;
  }
  return stretches;
}

/** From the first to the last of some stretches; null if there are none. */
export function spanning(stretches: readonly Stretch[]): Stretch | null {
  const first = stretches[0];
  return first === undefined ? null : { fromM: first.fromM, toM: stretches.at(-1)!.toM };
}

/** Stretches with less than `gapM` between them, as one. */
export function joined(stretches: readonly Stretch[], gapM: number): Stretch[] {
  const all: Stretch[] = [];
  for (const stretch of stretches) {
    const last = all.at(-1);
    if (last !== undefined && stretch.fromM - last.toM < gapM)
      all[all.length - 1] = { fromM: last.fromM, toM: stretch.toM };
    else all.push(stretch);
  }
  return all;
}
