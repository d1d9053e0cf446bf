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
  return all.sort((a, b) => b.weight - a.weight || (a.fromM ?? -1) - (b.fromM ?? -1));
}
