import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { ThreadsPoolWorker, type PoolOptions, type PoolWorker } from 'vitest/node';

/**
 * One thread that tests run in, run after run. Vitest starts a new one for every run, which takes ten times longer than most
 * tests of the core: here it is told that its thread has stopped, and given the same one again. Our own modules are read anew
 * each time, so that nothing they remember comes from another change.
 */
let kept: ThreadsPoolWorker | null = null;
let runs = 0;
let ours: readonly string[] = [];
/** Each run leaves something behind in the thread. */
const mostRuns = 100;

export const keptThread = { name: 'kept-thread', createPoolWorker };

function createPoolWorker(options: PoolOptions): PoolWorker {
  const heard: Parameters<PoolWorker['on']>[] = [];
  let thread: ThreadsPoolWorker;
  let hasEnded = false;
  return {
    name: keptThread.name,
    async start() {
      if (kept === null || runs >= mostRuns) {
        await kept?.stop();
        kept = new ThreadsPoolWorker(options);
        runs = 0;
        ours = ['src/core', 'tests'].flatMap((folder) =>
          modulesUnder(join(options.project.config.root, folder)),
        );
        await kept.start();
      }
      thread = kept;
      runs += 1;
    },
    on(event, callback) {
      heard.push([event, callback]);
      thread.on(event, callback);
    },
    off: (event, callback) => thread.off(event, callback),
    send(message) {
      if (message.type === 'run') message.context.invalidates = [...ours];
      if (message.type !== 'stop') return thread.send(message);
      hasEnded = true;
      for (const [event, callback] of heard)
        if (event === 'message') callback({ type: 'stopped', __vitest_worker_response__: true });
    },
    deserialize: (data) => data,
    async stop() {
      for (const [event, callback] of heard) thread.off(event, callback);
      // Not asked to end first: it hangs.
      if (hasEnded) return;
      kept = null;
      await thread.stop();
    },
  };
}

function modulesUnder(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name));
}
