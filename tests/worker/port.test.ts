import { describe, expect, test } from 'vitest';
import { ProblemError } from '../../src/core/domain/raster';
import { Client, type Start } from '../../src/worker/client';
import { Cancelled, Moved, WorkerLost } from '../../src/worker/protocol';
import { breathe, serve, type Handlers } from '../../src/worker/serve';

interface Sums {
  add: { ask: readonly number[]; answer: number };
  countForEver: { ask: null; answer: number };
  refuse: { ask: string; answer: null };
  break: { ask: null; answer: null };
  bytes: { ask: number; answer: Uint8Array };
}

const problem = { code: 'TST-001', subject: 'x', place: null, title: 'No', remedy: 'Ask for less' };

const handlers: Handlers<Sums> = {
  add: (numbers, { progress }) => {
    progress(0.5);
    return numbers.reduce((sum, n) => sum + n, 0);
  },
  async countForEver(_ask, { cancel }) {
    for (let n = 0; ; n++) {
      await breathe();
      cancel.throwIfAborted();
      if (n > 1e7) return n;
    }
  },
  refuse: () => {
    throw new ProblemError(problem);
  },
  break: () => {
    throw new TypeError('our own fault');
  },
  bytes: (length) => {
    const bytes = new Uint8Array(length).fill(7);
    return new Moved(bytes, [bytes.buffer]);
  },
};

/** A served port in this thread; `kill` ends it without a word, as a killed worker ends. */
function inThread(): { start: Start; kill: () => void; starts: () => number } {
  let lost: (() => void) | null = null;
  let starts = 0;
  return {
    start(onLost) {
      starts++;
      lost = onLost;
      const { port1, port2 } = new MessageChannel();
      serve<Sums>(port2, handlers);
      return {
        port: port1,
        stop: () => {
          port1.close();
          port2.close();
        },
      };
    },
    kill: () => lost?.(),
    starts: () => starts,
  };
}

describe('a worker seen as functions', () => {
  test('answers come back to the question they belong to', async () => {
    const client = new Client<Sums>(inThread().start);
    const sums = await Promise.all([
      client.ask('add', [1, 2]),
      client.ask('add', [3, 4]),
      client.ask('add', []),
    ]);
    expect(sums).toEqual([3, 7, 0]);
    client.stop();
  });

  test('says how far it is', async () => {
    const client = new Client<Sums>(inThread().start);
    const told: number[] = [];
    await client.ask('add', [1], { onProgress: (done) => told.push(done) });
    expect(told).toEqual([0.5]);
    client.stop();
  });

  test('what the user can mend arrives as a problem, a defect as an error with its words', async () => {
    const client = new Client<Sums>(inThread().start);
    await expect(client.ask('refuse', 'x')).rejects.toMatchObject({ problem });
    await expect(client.ask('break', null)).rejects.toThrow('our own fault');
    client.stop();
  });

  test('a cancelled question is given up at once, and the worker hears of it and answers the next', async () => {
    const client = new Client<Sums>(inThread().start);
    const stop = new AbortController();
    const asked = client.ask('countForEver', null, { signal: stop.signal });
    setTimeout(() => stop.abort(), 5);
    await expect(asked).rejects.toBeInstanceOf(Cancelled);
    expect(await client.ask('add', [2, 2])).toBe(4);
    client.stop();
  });

  test('a question withdrawn before it is asked is not asked', async () => {
    const thread = inThread();
    const client = new Client<Sums>(thread.start);
    await expect(client.ask('add', [1], { signal: AbortSignal.abort() })).rejects.toBeInstanceOf(Cancelled);
    expect(thread.starts()).toBe(0);
  });

  test('buffers are handed over, not copied', async () => {
    const client = new Client<Sums>(inThread().start);
    expect(await client.ask('bytes', 3)).toEqual(new Uint8Array([7, 7, 7]));
    client.stop();
  });

  test('a lost worker fails what it was asked, and a new one is given back what the old one held', async () => {
    const thread = inThread();
    const client = new Client<Sums>(thread.start);
    let restarts = 0;
    client.onRestart = () => restarts++;
    const asked = client.ask('countForEver', null);
    thread.kill();
    await expect(asked).rejects.toBeInstanceOf(WorkerLost);
    expect(await client.ask('add', [1, 1])).toBe(2);
    expect([restarts, thread.starts()]).toEqual([1, 2]);
    client.stop();
  });

  test('a worker that is stuck after a cancel is stopped', async () => {
    let posted = 0;
    let stopped = 0;
    const mute: Start = () => ({
      port: { postMessage: () => posted++, onmessage: null },
      stop: () => stopped++,
    });
    const client = new Client<Sums>(mute);
    const stop = new AbortController();
    const asked = client.ask('add', [1], { signal: stop.signal, stuckAfterMs: 5 });
    stop.abort();
    await expect(asked).rejects.toBeInstanceOf(Cancelled);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect([posted, stopped]).toEqual([2, 1]);
  });
});
