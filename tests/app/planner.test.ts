import { describe, expect, test, vi } from 'vitest';
import type { Engines } from '../../src/app/engines';
import { Planner, type PlannerEvents } from '../../src/app/planner';
import { defaultFigures } from '../../src/core/assumptions/figures';
import type { Project } from '../../src/core/domain/project';
import type { Plan } from '../../src/core/domain/segment';
import { defaultProject } from '../../src/core/files/project';
import { makePlan } from '../../src/core/plan/make-plan';
import { lookupIn } from '../../src/core/plan/slip-lookup';
import { buildTables } from '../../src/core/slip/tables';
import { Client, type Start } from '../../src/worker/client';
import type { GroundCalls } from '../../src/worker/ground-calls';
import type { PlanCalls } from '../../src/worker/plan-calls';
import { packPlan } from '../../src/worker/plan-columns';
import { packProfile, unpackProfile } from '../../src/worker/profile-columns';
import { WorkerLost, type Port } from '../../src/worker/protocol';
import { serve, type Handlers } from '../../src/worker/serve';
import type { SlipCalls } from '../../src/worker/slip-calls';
import { profileOf } from '../core/plan/invented';

/** Workers of this thread with the real slip model and planner, on invented ground; what they are asked is counted. */
function inThread() {
  const asked: string[] = [];
  let kill = () => {};
  const run =
    (handlers: object): Start =>
    (onLost) => {
      const { port1, port2 } = new MessageChannel();
      serve(port2 as unknown as Port, handlers as never);
      const stop = () => {
        port1.close();
        port2.close();
      };
      kill = () => {
        stop();
        onLost();
      };
      return { port: port1, stop };
    };
  const profile = profileOf(Array.from({ length: 60 }, () => ({ slopeDeg: 24, runOut: 'deadly' as const })));
  const otherProfile = profileOf(Array.from({ length: 21 }, () => ({ slopeDeg: 10, down: true })));
  const ground: Pick<Handlers<GroundCalls>, 'readGround'> = {
    readGround: ({ lngLats, stepM }) => {
      const isOther = lngLats[0] === otherLngDeg;
      asked.push(`${isOther ? 'other ' : ''}ground every ${stepM} m`);
      return packProfile(isOther ? otherProfile : profile);
    },
  };
  const slip: Handlers<SlipCalls> = {
    buildTables: ({ party, figures, snows, turnsRoundGoingDown, quality }) => {
      asked.push(`${quality} ${snows.map(({ hardness }) => hardness).join()}`);
      return buildTables(party, figures, snows, { quality: 'coarse', turnsRoundGoingDown });
    },
  };
  let held: Partial<Parameters<typeof makePlan>[0]> = {};
  const plan: Pick<
    Handlers<PlanCalls>,
    'setGround' | 'setWayBackGround' | 'setTables' | 'setOtherTeams' | 'makePlan'
  > = {
    setGround: (columns) => {
      held = { ...held, profile: unpackProfile(columns) };
      return null;
    },
    setWayBackGround: (columns) => {
      asked.push(columns === null ? 'no ground back' : 'ground back');
      const { wayBackProfile: _, ...others } = held;
      held = columns === null ? others : { ...held, wayBackProfile: unpackProfile(columns) };
      return null;
    },
    setTables: (tables) => {
      held = { ...held, tables };
      return null;
    },
    setOtherTeams: (teams) => {
      asked.push(`other teams: ${teams.map(({ to }) => to).join(' | ')}`);
      const otherAbilities = teams.map(({ from, to, tables }) => ({ from, to, lookup: lookupIn(tables) }));
      held = { ...held, otherAbilities };
      return null;
    },
    makePlan: ({ project, figures, settling }) => {
      asked.push(`plan ${project.snow.hardness}${settling ? ', settling' : ''}`);
      return packPlan(
        makePlan({ ...(held as Parameters<typeof makePlan>[0]), project, figures, settling }),
        [],
      );
    },
  };
  const engines = {
    ground: new Client<GroundCalls>(run(ground)),
    slip: new Client<SlipCalls>(run(slip)),
    plan: new Client<PlanCalls>(run(plan)),
  } satisfies Engines;
  return { engines, asked, killLast: () => kill() };
}

const project: Project = {
  ...defaultProject(),
  line: {
    id: 'l',
    name: '',
    points: [
      { position: [0, 45], elevationM: null, timeMs: null },
      { position: [0, 45.01], elevationM: null, timeMs: null },
    ],
  },
};

const otherLngDeg = 1;
const other = (points: number): Project['line'] => ({
  id: 'other',
  name: 'other',
  points: Array.from({ length: points }, (_, i) => ({
    position: [otherLngDeg, 45.01 - i * 0.01],
    elevationM: null,
    timeMs: null,
  })),
});

const backBy = (alternatives: Project['alternatives']): Project => ({
  ...withSnow('P'),
  alternatives,
  schedule: { ...project.schedule, wayBack: { alternativeId: 'other' } },
});

const withSnow = (hardness: 'P' | 'K' | '1F'): Project => ({ ...project, snow: { hardness, wetness: 'D' } });

/** Plans and waits until nothing is under way. */
async function planned(planner: Planner, of: Project, events: { working: () => boolean }): Promise<void> {
  planner.update({ project: of, figures: defaultFigures, terrain: [] });
  await vi.waitFor(() => expect(events.working()).toBe(false), { timeout: 20_000, interval: 5 });
}

function listening() {
  const plans: Plan[] = [];
  const troubles: unknown[] = [];
  let isWorking = false;
  const events: PlannerEvents = {
    onPlan: (plan) => plans.push(plan),
    onWork: (work) => (isWorking = work !== null),
    onTrouble: (reason) => troubles.push(reason),
    afterFirst: () => Promise.resolve(),
  };
  return { events, plans, troubles, working: () => isWorking };
}

describe('the planner', () => {
  test('tries a weaker and a stronger team from when it is asked to, once for each team', async () => {
    const { engines, asked } = inThread();
    const heard = listening();
    const planner = new Planner(engines, heard.events);
    await planned(planner, withSnow('P'), heard);
    expect(asked.join()).not.toContain('other teams');
    planner.tryAbilities({ project: withSnow('P'), figures: defaultFigures, terrain: [] });
    await vi.waitFor(() => expect(heard.working()).toBe(false), { timeout: 20_000, interval: 5 });
    const teams = 'other teams: A solid, B learning, C learning | B expert, C expert';
    expect(asked.slice(-2)).toEqual([teams, 'plan P']);
    const inputs = heard.plans.at(-1)!.segments.flatMap(({ flips }) => flips.map(({ input }) => input));
    expect(inputs).toContain('ability');
    await planned(planner, { ...withSnow('P'), name: 'renamed' }, heard);
    expect(asked.filter((words) => words === teams)).toHaveLength(1);
    // The tables of every hardness stay the same; those of the other teams know another snow only now.
    await planned(planner, withSnow('K'), heard);
    expect(heard.troubles).toEqual([]);
    expect(asked.filter((words) => words === teams)).toHaveLength(2);
    const flips = heard.plans.at(-1)!.segments.flatMap((segment) => segment.flips);
    expect(flips.map(({ input }) => input)).toContain('ability');
  });

  test('answers first from a quick look, marked as settling, then from the whole, then knows every hardness', async () => {
    const { engines, asked } = inThread();
    const heard = listening();
    await planned(new Planner(engines, heard.events), withSnow('P'), heard);
    expect(heard.plans.map(({ settling }) => settling)).toEqual([true, false, false]);
    expect(asked.slice(0, 3)).toEqual(['ground every 20 m', 'coarse P', 'plan P, settling']);
    expect(asked).toContain('ground every 5 m');
    expect(asked.filter((each) => each.startsWith('final'))).toHaveLength(6);
    expect(
      heard.plans.at(-1)?.segments.some(({ flips }) => flips.some(({ input }) => input === 'hardness')),
    ).toBe(true);
    expect(heard.troubles).toEqual([]);
  });

  test('another snow asks for no ground and no tables again', async () => {
    const { engines, asked } = inThread();
    const heard = listening();
    const planner = new Planner(engines, heard.events);
    await planned(planner, withSnow('P'), heard);
    asked.length = 0;
    await planned(planner, withSnow('K'), heard);
    expect(asked).toEqual(['plan K']);
  });

  test('the newest question wins: of many changes in a row only the last is shown', async () => {
    const { engines } = inThread();
    const heard = listening();
    const planner = new Planner(engines, heard.events);
    const ask = (of: Project) => planner.update({ project: of, figures: defaultFigures, terrain: [] });
    ask(withSnow('P'));
    ask(withSnow('1F'));
    await planned(planner, withSnow('K'), heard);
    expect(new Set(heard.plans.map(({ segments }) => segments[0]?.snow.hardness))).toEqual(new Set(['K']));
  });

  test('a worker that ends in the middle is started again and given what it held; nobody need know', async () => {
    const { engines, killLast } = inThread();
    const heard = listening();
    const planner = new Planner(engines, heard.events);
    await planned(planner, withSnow('P'), heard);
    killLast();
    const before = heard.plans.length;
    await planned(planner, withSnow('K'), heard);
    expect(heard.plans.length).toBeGreaterThan(before);
    expect(heard.troubles).toEqual([]);
  });

  test('E13 a worker that ends again and again is told once; asked again, it plans', async () => {
    const { engines } = inThread();
    let isShortOfMemory = true;
    let starts = 0;
    const plan = new Client<PlanCalls>((onLost) => {
      starts++;
      if (!isShortOfMemory) return engines.plan.start(onLost);
      setTimeout(onLost, 1);
      return { port: { postMessage: () => {}, onmessage: null }, stop: () => {} };
    });
    const heard = listening();
    const planner = new Planner({ ...engines, plan }, heard.events);
    planner.update({ project: withSnow('P'), figures: defaultFigures, terrain: [] });
    await vi.waitFor(() => expect(heard.troubles).toHaveLength(1), 20_000);
    expect(heard.troubles[0]).toBeInstanceOf(WorkerLost);
    expect([heard.plans.length, heard.working()]).toEqual([0, false]);
    expect(starts).toBeGreaterThan(1);

    isShortOfMemory = false;
    await planned(planner, withSnow('P'), heard);
    expect(heard.plans.at(-1)?.settling).toBe(false);
    expect(heard.troubles).toHaveLength(1);
  });

  test('cancelled, it is still, and the next change plans again', async () => {
    const { engines } = inThread();
    const heard = listening();
    const planner = new Planner(engines, heard.events);
    planner.update({ project: withSnow('P'), figures: defaultFigures, terrain: [] });
    planner.cancel();
    expect(heard.working()).toBe(false);
    await planned(planner, withSnow('P'), heard);
    expect(heard.plans.at(-1)?.settling).toBe(false);
    expect(heard.troubles).toEqual([]);
  });
});

describe('a way back by another line', () => {
  test('is planned on its own ground: a quick look first, then the whole', async () => {
    const { engines, asked } = inThread();
    const heard = listening();
    await planned(new Planner(engines, heard.events), backBy([other(2)]), heard);
    expect(asked.slice(0, 2)).toEqual(['ground every 20 m', 'other ground every 20 m']);
    expect(asked).toContain('other ground every 5 m');
    expect(heard.plans.map(({ settling }) => settling)).toEqual([true, false, false]);
    for (const { wayBack } of heard.plans) expect(wayBack?.totals.lengthM).toBe(100);
    expect(heard.troubles).toEqual([]);
  });

  test('chosen later, only its own ground is read; given up, the plan worker holds it no longer', async () => {
    const { engines, asked } = inThread();
    const heard = listening();
    const planner = new Planner(engines, heard.events);
    await planned(planner, { ...withSnow('P'), alternatives: [other(2)] }, heard);
    expect(heard.plans.at(-1)?.wayBack).toBeNull();
    asked.length = 0;
    heard.plans.length = 0;
    await planned(planner, backBy([other(2)]), heard);
    expect(asked.filter((each) => each.includes('every'))).toEqual([
      'other ground every 20 m',
      'other ground every 5 m',
    ]);
    expect(heard.plans[0]?.settling).toBe(true);
    expect(heard.plans.at(-1)?.wayBack?.totals.lengthM).toBe(100);
    asked.length = 0;
    await planned(planner, withSnow('P'), heard);
    expect(asked).toEqual(['no ground back', 'plan P']);
    expect(heard.plans.at(-1)?.wayBack).toBeNull();
  });

  test.each([
    ['a line that is gone', []],
    ['a line without a second point', [other(1)]],
  ])('by %s is not planned, and the plan says so', async (_, alternatives) => {
    const { engines, asked } = inThread();
    const heard = listening();
    await planned(new Planner(engines, heard.events), backBy(alternatives), heard);
    expect(asked.filter((each) => each.includes('other'))).toEqual([]);
    const made = heard.plans.at(-1);
    expect([made?.settling, made?.wayBack]).toEqual([false, null]);
    expect(made?.warnings.map(({ code }) => code)).toContain('way-back');
    expect(heard.troubles).toEqual([]);
  });

  test('a worker that ended is given its ground again', async () => {
    const { engines, asked, killLast } = inThread();
    const heard = listening();
    const planner = new Planner(engines, heard.events);
    const thereAndBack = backBy([other(2)]);
    await planned(planner, thereAndBack, heard);
    killLast();
    asked.length = 0;
    await planned(planner, thereAndBack, heard);
    expect(asked).toEqual(['ground back', 'plan P']);
    expect(heard.plans.at(-1)?.wayBack?.totals.lengthM).toBe(100);
  });
});
