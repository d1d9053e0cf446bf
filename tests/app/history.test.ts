import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { beforeEach, describe, expect, test } from 'vitest';
import { IDBFactory } from 'fake-indexeddb';
import type { Project } from '../../src/core/domain/project';
import { defaultProject } from '../../src/core/files/project';
import { applyChange, changeBetween } from '../../src/app/store/change';
import { atHandMax, emptyHistory, record, redo, undo, type History } from '../../src/app/store/history';
import { Device } from '../../src/app/store/device';
import { KeptRasters } from '../../src/app/store/kept-rasters';
import { Shelf } from '../../src/app/store/shelf';

const value = fc.jsonValue({ maxDepth: 4 });

describe('what differs between two values', () => {
  test('done gives the one, undone gives the other', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), value), fc.dictionary(fc.string(), value), (before, after) => {
        const change = changeBetween(before, after);
        if (change === null) {
          expect(after).toEqual(before);
          return;
        }
        const stored = structuredClone(change);
        expect(applyChange(before, stored, 'do')).toEqual(after);
        expect(applyChange(after, stored, 'undo')).toEqual(before);
      }),
      { examples: [[JSON.parse('{"__proto__":[]}') as Record<string, fc.JsonValue>, {}]] },
    );
  });

  test('one point of a long line is one point long', () => {
    const points = Array.from({ length: 20_000 }, (_, i) => ({ position: [i / 1e5, 45], elevationM: null }));
    const change = changeBetween(
      { points },
      { points: points.with(777, { position: [0, 0], elevationM: null }) },
    );
    expect(JSON.stringify(change).length).toBeLessThan(300);
  });
});

const project = defaultProject();
const named = (name: string): Project => ({ ...project, name });

/** Edits that give the project one name after the other. */
function edited(names: readonly string[]): { history: History; project: Project } {
  let history = emptyHistory;
  let now = project;
  for (const name of names) {
    const recorded = record(history, `name it ${name}`, [now, named(name)], 0);
    if (!recorded) throw new Error('nothing changed');
    history = recorded.history;
    now = named(name);
  }
  return { history, project: now };
}

describe('undo and redo', () => {
  test('go back and forth over every edit, with its name', () => {
    const { history, project: last } = edited(['a', 'b', 'c']);
    const back = undo(history, last);
    expect([back?.project.name, back?.name]).toEqual(['b', 'name it c']);
    const forth = back && redo(back.history, back.project);
    expect(forth?.project).toEqual(last);
    expect(forth && redo(forth.history, forth.project)).toBeNull();
  });

  test('an edit that changes nothing is none', () => {
    expect(record(emptyHistory, 'nothing', [project, { ...project }], 0)).toBeNull();
  });

  test('after a new edit what was undone is gone', () => {
    const { history, project: last } = edited(['a', 'b']);
    const back = undo(history, last);
    const recorded = back && record(back.history, 'other', [back.project, named('z')], 0);
    expect(recorded?.history.edits.map(({ name }) => name)).toEqual(['name it a', 'other']);
    expect(recorded && redo(recorded.history, named('z'))).toBeNull();
  });

  test('a thousand are at hand; older ones are said to be elsewhere', () => {
    const { history } = edited(Array.from({ length: atHandMax + 5 }, (_, i) => `n${i}`));
    expect([history.edits.length, history.olderOnDisk]).toEqual([atHandMax, true]);
  });
});

describe('the journal on this device', () => {
  beforeEach(() => {
    globalThis.indexedDB = new IDBFactory();
  });

  async function written(names: readonly string[]): Promise<{ history: History; project: Project }> {
    const device = new Device();
    const journal = new Shelf(device).newJournal();
    await journal.catchUp({ project, history: emptyHistory });
    let history = emptyHistory;
    let now = project;
    for (const name of names) {
      const recorded = record(history, `name it ${name}`, [now, named(name)], 0);
      if (!recorded) continue;
      history = recorded.history;
      now = named(name);
      await journal.add(recorded.edit, now);
    }
    device.reopen();
    return { history, project: now };
  }

  /** The project that was open last, on another visit. */
  async function reopened() {
    const shelf = new Shelf(new Device());
    const id = await shelf.current();
    const journal = id === null ? null : await shelf.journal(id);
    if (!journal) throw new Error('Nothing is kept');
    return journal;
  }

  test('a first visit finds nothing', async () => {
    expect(await new Shelf(new Device()).current()).toBeNull();
  });

  test('reopening finds project and history as they were, also over many edits', async () => {
    const left = await written(Array.from({ length: 123 }, (_, i) => `n${i}`));
    const found = await (await reopened()).restore();
    expect(found?.project).toEqual(left.project);
    expect(found?.history).toEqual(left.history);
  });

  test('an undone edit stays undone, and can be redone after a reload', async () => {
    const left = await written(['a', 'b', 'c']);
    const back = undo(left.history, left.project);
    if (!back) throw new Error('nothing to undo');
    const journal = await reopened();
    await journal.restore();
    await journal.moveTo(back);
    const found = await journal.restore();
    expect(found?.project.name).toBe('b');
    expect(found && redo(found.history, found.project)?.project.name).toBe('c');
  });

  test('an edit after undo, far behind the last full copy, is found again', async () => {
    const left = await written(Array.from({ length: 60 }, (_, i) => `n${i}`));
    let { history, project: now } = left;
    for (let i = 0; i < 30; i++) {
      const back = undo(history, now);
      if (!back) throw new Error('nothing to undo');
      ({ history, project: now } = back);
    }
    const journal = await reopened();
    await journal.restore();
    await journal.moveTo({ project: now, history });
    const recorded = record(history, 'other', [now, named('z')], 0);
    if (!recorded) throw new Error('nothing changed');
    await journal.add(recorded.edit, named('z'));
    const found = await journal.restore();
    expect([found?.project.name, found?.history.edits.length]).toEqual(['z', 31]);
  });

  test('files are kept with the answers they were read with', async () => {
    const rasters = new KeptRasters(new Device());
    const answers = { crs: 'EPSG:2056', elevationUnit: null };
    await rasters.keep({ key: 'k', name: 'k.tif', answers }, new Blob(['xyz']));
    const [kept] = await rasters.list();
    expect([kept?.raster.name, kept?.raster.answers.crs, kept?.sizeBytes]).toEqual(['k.tif', 'EPSG:2056', 3]);
    expect(await (kept && (await rasters.read(kept.raster)))?.text()).toBe('xyz');
  });
});
