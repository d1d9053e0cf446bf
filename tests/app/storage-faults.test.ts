import 'fake-indexeddb/auto';
import { IDBDatabase, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { found, freshDevice, named, Tab } from './storage';

/**
 * Every call to the storage is a step; at one of them, or from one of them on, the storage fails in one of the ways browsers
 * do. Afterwards another visit must find the project as it was before or after the edit, never anything else, and the page
 * must say "saved" only of what such a visit finds.
 */
interface Fault {
  readonly atStep: number;
  readonly forEver: boolean;
  readonly how: 'QuotaExceededError' | 'UnknownError' | 'InvalidStateError' | 'abort';
}

let fault: Fault | null = null;
let steps = 0;

const storeCalls = ['put', 'get', 'getAll', 'getAllKeys', 'delete', 'count'] as const;
type AnyCall = (this: unknown, ...given: unknown[]) => unknown;
const originals: (() => void)[] = [];

function watch(prototype: object, name: string): void {
  const calls = prototype as Record<string, AnyCall>;
  const original = calls[name] as AnyCall;
  originals.push(() => (calls[name] = original));
  calls[name] = function (...given) {
    steps++;
    const isHit = fault && (fault.forEver ? steps >= fault.atStep : steps === fault.atStep);
    if (!fault || !isHit) return original.apply(this, given);
    if (fault.how !== 'abort' || !(this instanceof IDBObjectStore))
      throw new DOMException('made to fail', fault.how === 'abort' ? 'AbortError' : fault.how);
    const request = original.apply(this, given);
    this.transaction.abort();
    return request;
  };
}

beforeEach(() => {
  freshDevice();
  for (const name of storeCalls) watch(IDBObjectStore.prototype, name);
  watch(IDBDatabase.prototype, 'transaction');
});
afterEach(() => {
  fault = null;
  for (const restore of originals.splice(0)) restore();
});

type Act = (tab: Tab) => void;
const acts: Readonly<Record<string, { readonly before: Act; readonly act: Act }>> = {
  'a new project': { before: () => {}, act: (tab) => tab.begin(named('other')) },
  'an edit': { before: (tab) => tab.edit(named('a')), act: (tab) => tab.edit(named('b')) },
  'an undo': { before: (tab) => tab.edit(named('a')), act: (tab) => tab.undo() },
  'an edit after an undo': {
    before: (tab) => {
      tab.edit(named('a'));
      tab.edit(named('b'));
      tab.undo();
    },
    act: (tab) => tab.edit(named('c')),
  },
  'the edit with which a whole copy is written': {
    before: (tab) => {
      for (let i = 0; i < 49; i++) tab.edit(named(`n${i}`));
    },
    act: (tab) => tab.edit(named('fifty')),
  },
};

const hows = ['QuotaExceededError', 'UnknownError', 'InvalidStateError', 'abort'] as const;

describe('E6 E8 whatever storage call fails', () => {
  for (const [title, { before, act }] of Object.entries(acts))
    for (const how of hows)
      for (const forEver of [false, true])
        test(`${title}: ${how}, ${forEver ? 'from then on' : 'once'}`, async () => {
          let tried = 0;
          for (let atStep = 1; ; atStep++) {
            freshDevice();
            fault = null;
            const tab = new Tab();
            tab.begin(named('begun'));
            await tab.settled();
            before(tab);
            await tab.settled();
            expect(tab.state).toBe('saved');
            const stood = { project: tab.project, history: tab.history };

            steps = 0;
            fault = { atStep, forEver, how };
            act(tab);
            await tab.settled();
            const wasHit = steps >= atStep;
            fault = null;
            if (!wasHit) break;
            tried++;

            const left = await found();
            expect(left?.lost).toBeNull();
            const there = { project: left?.project, history: left?.history };
            const stands = { project: tab.project, history: tab.history };
            if (tab.state === 'saved') expect(there).toEqual(stands);
            else {
              expect(tab.state).toBe('not-saved');
              expect([stood, stands]).toContainEqual(there);
            }
            // The device takes edits again: everything at hand is written.
            tab.edit(named('at last', tab.project));
            await tab.settled();
            expect(tab.state).toBe('saved');
            expect((await found())?.project).toEqual(tab.project);
            expect((await found())?.history).toEqual(tab.history);
          }
          expect(tried).toBeGreaterThan(0);
        });

  test('E3 a full device is told of by that name, and a later try writes everything', async () => {
    const tab = new Tab();
    tab.begin(named('begun'));
    await tab.settled();
    steps = 0;
    fault = { atStep: 1, forEver: true, how: 'QuotaExceededError' };
    tab.edit(named('a'));
    tab.edit(named('b'));
    await tab.settled();
    expect(tab.saving.state).toEqual({ kind: 'not-saved', why: "the browser's storage is full" });
    fault = null;
    tab.saving.writer?.tryAgain();
    await tab.settled();
    expect(tab.state).toBe('saved');
    expect((await found())?.history.edits).toHaveLength(2);
  });

  test('E4 without any storage the page goes on, and says so from the start', async () => {
    globalThis.indexedDB = {
      open() {
        throw new DOMException('denied', 'SecurityError');
      },
    } as unknown as IDBFactory;
    const tab = new Tab();
    expect(await tab.saving.lastOne()).toBeNull();
    expect(tab.state).toBe('not-saved');
    tab.begin(named('begun'));
    tab.edit(named('a'));
    await tab.settled();
    expect(tab.saving.state).toMatchObject({ kind: 'not-saved' });
    expect(tab.project.name).toBe('a');
  });
});
