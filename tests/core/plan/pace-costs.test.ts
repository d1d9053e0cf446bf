import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { variantMode, type Variant } from '../../../src/core/domain/mode';
import { defaultParty } from '../../../src/core/domain/rope-team';
import type { Project } from '../../../src/core/domain/project';
import { actS } from '../../../src/core/pace/level';
import { paceStretch } from '../../../src/core/pace/stretch';
import { secondsPerM } from '../../../src/core/pace/seconds-per-m';
import { walkedSecondsPerM } from '../../../src/core/pace/walked';
import type { Condition } from '../../../src/core/plan/conditions';
import { paceCosts, ropeOrders, ropeState } from '../../../src/core/plan/pace-costs';
import { states } from '../../../src/core/plan/states';
import { evenly, profileOf, projectOf } from './invented';

const figures = defaultFigures;
const party = { ...defaultParty, rack: { pickets: 6, captureDevices: 3 } };
const conditionOn = (gradeDeg: number | null, more: Partial<Condition> = {}): Condition =>
  ({
    station: { gradeDeg, elevationM: 2000 },
    snow: { hardness: 'P', wetness: 'D' },
    runOut: 'deadly',
    goingDown: false,
    ...more,
  }) as Condition;

const costsOf = (changes: Partial<Project> = {}) => {
  const project = projectOf({ party, ...changes });
  return paceCosts(project, figures, ropeOrders(project));
};
const belays = ['running', 'running-capture', 'running-double', 'pitched'] as const;

test('on its rope as the state says; where nothing is done, none', () => {
  expect(states.map(ropeState)).toEqual(
    states.map((state) => (state === 'none-holds' || state === 'no-data' ? null : state)),
  );
});

describe('seconds a metre', () => {
  test('walked roped: the walking rule on that ground, in that snow', () => {
    for (const gradeDeg of [25, -25]) {
      const own = { walkingFactor: 1.2, walkingByGrade: [], placementFactor: 1 };
      const condition = conditionOn(gradeDeg, { snow: { hardness: 'F', wetness: 'D' } });
      expect(costsOf({ ownPace: own, walkingRule: 'tobler' }).secondsPerM('roped', condition)).toBeCloseTo(
        walkedSecondsPerM(gradeDeg, 2000, { snow: condition.snow, figures, own, rule: 'tobler' }),
        9,
      );
    }
  });

  test.each(belays)('%s: along the slope, so more of it the steeper the way', (variant) => {
    const level = costsOf().secondsPerM(variant, conditionOn(0));
    expect(level).toBeCloseTo(
      secondsPerM(variant, {
        ...{ snow: { hardness: 'P', wetness: 'D' }, runOut: 'deadly', party, figures },
        ...{ gradeDeg: 0, elevationM: 0 },
      }),
      9,
    );
    expect(costsOf().secondsPerM(variant, conditionOn(60))).toBeCloseTo(2 * level, 6);
    expect(costsOf().secondsPerM(variant, conditionOn(-60))).toBeCloseTo(2 * level, 6);
    expect(costsOf().secondsPerM(variant, conditionOn(null))).toBeNaN();
  });

  test('nothing where nothing is done', () => {
    expect(costsOf().secondsPerM('none-holds', conditionOn(30))).toBe(0);
    expect(costsOf().secondsPerM('no-data', conditionOn(null))).toBe(0);
  });
});

/** By hand: the anchor is made once, and each of the party goes over alone. */
test('a crossing is its anchor once, and each climber over it', () => {
  const own = { walkingFactor: 1.5, walkingByGrade: [], placementFactor: 1 };
  const crossing = costsOf({ ownPace: own });
  const eachS = (party.climbers.length * 1.5) / figures.speed.crossing.mode;
  expect(crossing.secondsPerM('crossing', conditionOn(null))).toBeCloseTo(eachS, 9);
  expect(crossing.onceS('crossing', conditionOn(null))).toBeCloseTo(
    actS(figures.act.prepareCrossing, 'usual'),
    9,
  );
});

describe('seconds once for a stretch', () => {
  /** What short stretches of even ground take over their length's share of a long one. */
  const onceS = (variant: Variant, of: typeof party, hardness: 'P' | 'F', runOut: 'deadly' | 'gentle') => {
    const snow = { hardness, wetness: 'D' } as const;
    const { stations } = profileOf(evenly(9, { slopeDeg: 0, runOut }));
    const lengthsM = [5, 10, 15, 20, 30, 40];
    const perM = secondsPerM(variant, { snow, runOut, party: of, figures, gradeDeg: 0, elevationM: 0 });
    const extra = lengthsM.map((toM) => {
      const { time } = paceStretch({
        ...{ mode: variantMode[variant], variant, stations, fromM: 0, toM, party: of, figures, snow },
        ...{ own: projectOf().ownPace, walkingRule: 'munter', lastTakesLead: false },
      });
      return time!.defaultS - perM * toM;
    });
    return extra.reduce((sum, s) => sum + s, 0) / extra.length;
  };

  test.each(belays)('%s: what short stretches take besides', (variant) => {
    for (const [hardness, runOut] of [
      ['P', 'deadly'],
      ['P', 'gentle'],
      ['F', 'gentle'],
    ] as const) {
      const condition = conditionOn(20, { snow: { hardness, wetness: 'D' }, runOut });
      expect(costsOf().onceS(variant, condition)).toBeCloseTo(onceS(variant, party, hardness, runOut), 6);
    }
  });

  test('going down the order on the rope is turned round, where the team turns', () => {
    const [first, ...others] = party.climbers;
    const uneven = {
      ...party,
      climbers: [{ ...first!, mayLead: true }, ...others.map((one) => ({ ...one, mayLead: false }))],
    };
    const turned = { ...uneven, climbers: uneven.climbers.toReversed() };
    const down = conditionOn(-20, { goingDown: true });
    expect(ropeOrders(projectOf({ party: uneven }))).toEqual({ up: uneven, down: turned });
    const kept = projectOf({ party: uneven, turnsRoundGoingDown: false });
    expect(ropeOrders(kept)).toEqual({ up: uneven, down: uneven });
    expect(costsOf({ party: uneven }).onceS('pitched', down)).toBeCloseTo(
      onceS('pitched', turned, 'P', 'deadly'),
      6,
    );
  });

  test('none where it is walked, or nothing is done', () => {
    for (const state of ['roped', 'none-holds', 'no-data'] as const) {
      expect(costsOf().onceS(state, conditionOn(20))).toBe(0);
    }
  });

  test('another team, other figures and another pace are counted anew', () => {
    const usual = costsOf().onceS('running', conditionOn(20));
    const slow = costsOf({ ownPace: { walkingFactor: 1, walkingByGrade: [], placementFactor: 2 } });
    expect(slow.onceS('running', conditionOn(20))).toBeGreaterThan(usual);
    expect(costsOf().onceS('running', conditionOn(20))).toBe(usual);
  });
});
