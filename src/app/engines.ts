import { Client, startWorker } from '../worker/client';
import type { GroundCalls } from '../worker/ground-calls';
import type { PlanCalls } from '../worker/plan-calls';
import type { SlipCalls } from '../worker/slip-calls';

/** The three workers, each seen as functions. */
export interface Engines {
  readonly ground: Client<GroundCalls>;
  readonly slip: Client<SlipCalls>;
  readonly plan: Client<PlanCalls>;
}

/** All three are started at once: what they are for is needed as soon as the page opens. */
export function startEngines(): Engines {
  const engines = makeEngines();
  engines.ground.wake();
  engines.slip.wake();
  engines.plan.wake();
  return engines;
}

const makeEngines = (): Engines => ({
  ground: new Client<GroundCalls>(
    startWorker(
      (name) => new Worker(new URL('../worker/ground.worker.ts', import.meta.url), { type: 'module', name }),
    ),
  ),
  slip: new Client<SlipCalls>(
    startWorker(
      (name) => new Worker(new URL('../worker/slip.worker.ts', import.meta.url), { type: 'module', name }),
    ),
  ),
  plan: planWorker(),
});

/** A worker that plans, not started before it is asked. */
export const planWorker = () =>
  new Client<PlanCalls>(
    startWorker(
      (name) => new Worker(new URL('../worker/plan.worker.ts', import.meta.url), { type: 'module', name }),
    ),
  );
