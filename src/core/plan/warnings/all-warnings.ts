import type { Warning } from '../../domain/segment';
import { dayWarnings } from './day-warnings';
import { groundWarnings } from './ground-warnings';
import { markWarnings } from './mark-warnings';
import { protectionWarnings } from './protection-warnings';
import { ropeWarnings } from './rope-warnings';
import { teamWarnings } from './team-warnings';
import type { Planned } from './warn';

/** Everything the guide should know, heavier first, then along the line. */
export function allWarnings(planned: Planned): Warning[] {
  const all = [
    ...protectionWarnings(planned),
    ...ropeWarnings(planned),
    ...teamWarnings(planned),
    ...markWarnings(planned),
    ...groundWarnings(planned),
    ...dayWarnings(planned),
  ];
  return fewOfEachKind(all).sort((a, b) => b.weight - a.weight || (a.fromM ?? -1) - (b.fromM ?? -1));
}

/** Of one kind and weight so many stand by themselves; a list of hundreds would hide what matters. */
const apart = 3;

/** Where a kind comes oftener, its last entry speaks for all the rest and says how many they are. */
function fewOfEachKind(all: readonly Warning[]): Warning[] {
  const kinds = new Map<string, Warning[]>();
  for (const warning of all) {
    const kind = `${warning.code} ${warning.weight}`;
    const sofar = kinds.get(kind);
    if (sofar === undefined) kinds.set(kind, [warning]);
    else sofar.push(warning);
  }
  return [...kinds.values()].flatMap((kind) => {
    const rest = kind.slice(apart);
    if (rest.length < 2) return kind;
    const first = rest[0]!;
    const text = `${rest.length} more places: ${first.text}`;
    return [...kind.slice(0, apart), { ...first, text, toM: rest.at(-1)!.toM }];
  });
}
