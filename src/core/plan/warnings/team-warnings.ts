import type { Warning } from '../../domain/segment';
import { spanning, warn, type Planned } from './warn';

/** What the make-up of the team means for the modes chosen. */
export function teamWarnings(planned: Planned): Warning[] {
  return [...twoPeople(planned), ...fourOrMore(planned), ...whoLeads(planned)];
}

function twoPeople({ project }: Planned): Warning[] {
  if (project.party.climbers.length !== 2) return [];
  const glacier = project.onGlacier
    ? ' On a glacier one alone has to hold a fall into a crevasse and to haul.'
    : '';
  return [warn('two-people', 3, `A team of two: one slip, one to hold it.${glacier}`)];
}

function fourOrMore({ project, segments }: Planned): Warning[] {
  const count = project.party.climbers.length;
  const place = spanning(segments.filter(({ mode }) => mode === 'running-belay'));
  if (count < 4 || place === null) return [];
  return [
    warn(
      'many-on-running-belay',
      2,
      `${count} on a running belay: more to pull each other off, and slow.`,
      place,
    ),
  ];
}

function whoLeads({ orders, segments }: Planned): Warning[] {
  const [up, down] = [orders.up.climbers[0], orders.down.climbers[0]];
  const warnings: Warning[] = [];
  const [upward, downward] = [
    spanning(segments.filter(({ goingDown }) => !goingDown)),
    spanning(segments.filter(({ goingDown }) => goingDown)),
  ];
  if (upward !== null && up?.mayLead === false)
    warnings.push(
      warn('lead', 2, `${up.name || 'The first'} goes first and is not marked as able to lead.`, upward),
    );
  if (downward !== null && down?.mayLead === false) {
    const text = `Going down ${down.name || 'the last'} goes first and is not marked as able to lead.`;
    warnings.push(warn('lead-down', 2, text, downward));
  }
  return warnings;
}
