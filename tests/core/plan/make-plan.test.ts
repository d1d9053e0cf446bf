import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Plan } from '../../../src/core/domain/segment';
import { planWith } from '../../../src/core/plan/make-plan';
import { fakeSlips } from './fake-slips';
import { evenly, profileOf, projectOf, type Ground } from './invented';

const plan = (grounds: readonly Ground[], changes: Parameters<typeof projectOf>[0] = {}): Plan =>
  planWith(fakeSlips, {
    profile: profileOf(grounds),
    project: projectOf(changes),
    figures: defaultFigures,
    settling: false,
  });

const modesOf = ({ segments }: Plan) => segments.map(({ mode }) => mode);

describe('plan', () => {
  test('steepening ground: roped travel, running belay, pitched belay', () => {
    const made = plan([
      ...evenly(60, { slopeDeg: 12 }),
      ...evenly(60, { slopeDeg: 28 }),
      ...evenly(60, { slopeDeg: 45 }),
    ]);
    expect(modesOf(made)).toEqual(['roped', 'running-belay', 'pitched-belay']);
  });
});
