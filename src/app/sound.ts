import type { Client } from '../worker/client';
import type { GroundCalls } from '../worker/ground-calls';
import { WorkerLost } from '../worker/protocol';
import type { Taken } from './saving.svelte';
import { projectAt } from './store/history';

/** How many edits back a sound state is looked for. */
const backMax = 50;

/**
 * The project as kept, through the same gate as a file: fields that are newer than what was kept are filled in. Where it is
 * damaged, the last earlier state that is not. null: none is.
 */
export async function sound(taken: Taken, ground: Client<GroundCalls>): Promise<Taken | null> {
  const { history } = taken;
  for (let done = history.done; done >= Math.max(0, history.done - backMax); done--) {
    try {
      const project = await ground.ask('checkProject', projectAt(history, taken.project, done));
      const left = history.done - done;
      return left === 0
        ? { ...taken, project }
        : {
            ...taken,
            project,
            history: { ...history, edits: history.edits.slice(0, done), done },
            lost: `${left} damaged ${left === 1 ? 'edit' : 'edits'} left out`,
          };
    } catch (reason) {
      if (reason instanceof WorkerLost) throw reason;
      // One edit further back.
    }
  }
  return null;
}
