import type { Line } from '../core/domain/project';
import type { Plan } from '../core/domain/segment';
import { Cancelled } from '../worker/protocol';
import { activateLine } from './edits';
import { planWorker, type Engines } from './engines';
import { Planner, type PlanInputs } from './planner';

/** A line of the project with what it would come to; null: nothing could be planned on it. */
export interface LinePlan {
  readonly line: Line;
  readonly plan: Plan | null;
}

/**
 * Plans each alternative as if it were the line in hand, one after another and in a worker of its own: what stands on the
 * screen stays as it is. What was set by hand along the line in hand holds on none of them.
 *
 * @throws Cancelled after `signal`.
 */
export async function planAlternatives(
  { project, figures, terrain }: PlanInputs,
  engines: Engines,
  { signal, onProgress }: { readonly signal: AbortSignal; readonly onProgress: (done: number) => void },
): Promise<readonly LinePlan[]> {
  const plan = planWorker();
  const planned: LinePlan[] = [];
  try {
    for (const line of project.alternatives) {
      onProgress(planned.length / project.alternatives.length);
      const asIfInHand = activateLine('', line).make(project);
      planned.push({
        line,
        plan:
          line.points.length < 2
            ? null
            : await wholePlan({ project: asIfInHand, figures, terrain }, { ...engines, plan }, signal),
      });
    }
  } finally {
    plan.stop();
  }
  return planned;
}

/** The first plan that is made from the whole ground and the final tables. */
function wholePlan(inputs: PlanInputs, engines: Engines, signal: AbortSignal): Promise<Plan> {
  return new Promise((resolve, reject) => {
    const planner = new Planner(engines, {
      onPlan(plan) {
        if (plan.settling) return;
        planner.cancel();
        resolve(plan);
      },
      onWork: () => {},
      onTrouble: reject,
      afterFirst: () => Promise.resolve(),
    });
    signal.addEventListener(
      'abort',
      () => {
        planner.cancel();
        reject(new Cancelled());
      },
      { once: true },
    );
    planner.update(inputs);
  });
}
