import { abilities, abilityName, type Party } from '../domain/rope-team';

/** The same team with other abilities, in words and whole. */
export interface OtherTeam {
  /** Only who changes: `B solid, C solid`. */
  readonly from: string;
  readonly to: string;
  readonly party: Party;
}

/** Every climber a step weaker; then every climber a step stronger. Left out where nobody can be. */
export function otherTeams(party: Party): OtherTeam[] {
  return [1, -1].flatMap((step) => {
    const climbers = party.climbers.map((climber) => {
      const ability = abilities[abilities.indexOf(climber.ability) + step] ?? climber.ability;
      return { ...climber, ability };
    });
    const changed = climbers.flatMap((climber, i) => {
      const was = party.climbers[i]!.ability;
      const name = climber.name || `No. ${i + 1}`;
      return was === climber.ability
        ? []
        : [[`${name} ${abilityName[was]}`, `${name} ${abilityName[climber.ability]}`]];
    });
    if (changed.length === 0) return [];
    const [from, to] = [0, 1].map((i) => changed.map((words) => words[i]).join(', '));
    return [{ from: from!, to: to!, party: { ...party, climbers } }];
  });
}
