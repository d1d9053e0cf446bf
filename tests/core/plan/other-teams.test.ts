import { describe, expect, test } from 'vitest';
import type { Ability } from '../../../src/core/domain/rope-team';
import { defaultProject } from '../../../src/core/files/project';
import { otherTeams } from '../../../src/core/plan/other-teams';

const { party } = defaultProject();
const teamOf = (...abilities: Ability[]) => ({
  ...party,
  climbers: abilities.map((ability, i) => ({
    ...party.climbers[0]!,
    name: i === 1 ? '' : 'AB'[i]!,
    ability,
  })),
});

describe('the same team a step weaker and a step stronger', () => {
  test('names who changes, and changes nothing else', () => {
    const [weaker, stronger] = otherTeams(teamOf('expert', 'solid'));
    expect([weaker?.from, weaker?.to]).toEqual(['A expert, No. 2 solid', 'A solid, No. 2 learning']);
    expect([stronger?.from, stronger?.to]).toEqual(['No. 2 solid', 'No. 2 expert']);
    expect(weaker?.party).toEqual(teamOf('solid', 'learning'));
    expect(stronger?.party).toEqual(teamOf('expert', 'expert'));
  });

  test('is left out where nobody can be weaker, or stronger', () => {
    expect(otherTeams(teamOf('expert')).map(({ to }) => to)).toEqual(['A solid']);
    expect(otherTeams(teamOf('unreliable')).map(({ to }) => to)).toEqual(['A learning']);
  });
});
