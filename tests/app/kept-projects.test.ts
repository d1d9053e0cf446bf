import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { beforeEach, describe, expect, test } from 'vitest';
import { earlierStates } from '../../src/app/earlier-states';
import { databaseName, type WholeCopy } from '../../src/app/store/database';
import { Device } from '../../src/app/store/device';
import { atHandMax, emptyHistory, projectAt, record } from '../../src/app/store/history';
import { keptForMs } from '../../src/app/store/journal';
import { rebuilt } from '../../src/app/store/rebuilt';
import { Shelf } from '../../src/app/store/shelf';
import { found, freshDevice, named, plain, Tab } from './storage';

beforeEach(freshDevice);

const dayMs = 86_400_000;

test('the one project that version 1 kept becomes the first of several, with its history', async () => {
  const first = record(emptyHistory, 'name it', [plain, named('a')], 1000);
  const second = first && record(first.history, 'name it again', [named('a'), named('b')], 2000);
  if (!second) throw new Error('nothing changed');
  const old = await openDB(databaseName, 1, {
    upgrade(db) {
      db.createObjectStore('edits', { keyPath: 'seq' });
      db.createObjectStore('state');
      db.createObjectStore('files', { keyPath: 'key' });
    },
  });
  for (const edit of second.history.edits) await old.put('edits', edit);
  await old.put('state', { seq: 0, project: plain }, 'base');
  await old.put('state', 2, 'position');
  const answers = { crs: null, elevationUnit: null };
  await old.put('files', { key: 'k.tif', name: 'k.tif', file: new Blob(['xyz']), answers });
  old.close();

  const left = await found();
  expect(left?.project).toEqual(named('b'));
  expect(left?.history).toEqual(second.history);
  const tab = new Tab();
  await tab.open();
  const [raster] = await tab.saving.rasters.list();
  expect(raster?.sizeBytes).toBe(3);
  tab.edit(named('c'));
  await tab.settled();
  expect((await found())?.history.edits).toHaveLength(3);
});

describe('several projects', () => {
  test('P17 beginning or opening another leaves the one before as it was', async () => {
    const tab = new Tab();
    tab.begin(named('one'));
    tab.edit(named('one, edited'));
    await tab.settled();
    const one = tab.saving.currentId ?? '';
    tab.begin(named('two'));
    tab.edit(named('two, edited'));
    await tab.settled();
    expect((await tab.saving.shelf.list()).map(({ name }) => name).sort()).toEqual([
      'one, edited',
      'two, edited',
    ]);
    const back = await tab.open(false, one);
    expect([back?.project.name, back?.history.edits.length]).toEqual(['one, edited', 1]);
    expect((await found())?.project.name).toBe('one, edited');
  });

  test('edits made while another project is still being written go to their own', async () => {
    const tab = new Tab();
    tab.begin(named('one'));
    tab.edit(named('one, edited'));
    tab.begin(named('two'));
    tab.edit(named('two, edited'));
    await tab.settled();
    await expect
      .poll(async () => (await tab.saving.shelf.list()).map(({ name }) => name).sort())
      .toEqual(['one, edited', 'two, edited']);
  });

  test('a deleted one is taken back whole, and gone for good only after thirty days', async () => {
    const tab = new Tab();
    tab.begin(named('one'));
    await tab.settled();
    const { shelf } = tab.saving;
    const id = tab.saving.currentId ?? '';
    await shelf.setDeleted(id, 5000);
    expect(await shelf.current()).toBeNull();
    await shelf.sweep(5000 + keptForMs - 1);
    await shelf.setDeleted(id, null);
    expect(await shelf.current()).toBe(id);
    await shelf.setDeleted(id, 5000);
    await shelf.sweep(5000 + keptForMs + 1);
    expect(await shelf.list()).toEqual([]);
  });

  test('a copy beside the open one does not become the one that opens next', async () => {
    const tab = new Tab();
    tab.begin(named('one'));
    await tab.settled();
    await tab.saving.putBeside(named('copy'));
    expect((await found())?.project.name).toBe('one');
  });
});

describe('two tabs on one project', () => {
  async function twoTabs() {
    const mine = new Tab();
    mine.begin(named('shared'));
    await mine.settled();
    const other = new Tab();
    await other.open();
    return { mine, other };
  }

  test('E7 the second is told, and writes nothing', async () => {
    const { mine, other } = await twoTabs();
    expect([mine.state, other.state]).toEqual(['saved', 'elsewhere']);
    other.edit(named('from the other'));
    mine.edit(named('from mine'));
    await Promise.all([mine.settled(), other.settled()]);
    expect((await found())?.project.name).toBe('from mine');
    expect(other.saving.writer?.isChangedHere).toBe(true);
    expect(await other.saving.writer?.journal.isOvertaken()).toBe(true);
  });

  test('taking over shows what is kept, and the first is told', async () => {
    const { mine, other } = await twoTabs();
    mine.edit(named('from mine'));
    await mine.settled();
    const taken = await other.open(true);
    expect(taken?.project.name).toBe('from mine');
    await other.settled();
    await expect.poll(() => [mine.state, other.state]).toEqual(['elsewhere', 'saved']);
    other.edit(named('from the other'));
    await other.settled();
    expect((await found())?.project.name).toBe('from the other');
  });

  test('P16 where both edited and mine goes on, theirs stays among the earlier states', async () => {
    const { mine, other } = await twoTabs();
    mine.edit(named('theirs'));
    other.edit(named('mine'));
    await mine.settled();
    await other.saving.writer?.overwrite();
    await other.settled();
    expect([other.state, (await found())?.project.name]).toEqual(['saved', 'mine']);
    const asides = await other.saving.writer?.journal.asides();
    expect(asides?.map(({ value }) => value.name)).toEqual(['theirs']);
  });

  test('without locks the count of writes still keeps one from writing over the other', async () => {
    Object.defineProperty(globalThis, 'navigator', { value: { storage: {} }, configurable: true });
    const { mine, other } = await twoTabs();
    await other.settled();
    expect(other.state).toBe('saved');
    mine.edit(named('from mine'));
    await mine.settled();
    other.edit(named('from the other'));
    await other.settled();
    expect(other.state).toBe('elsewhere');
    expect(other.saving.writer?.isChangedHere).toBe(true);
    expect((await found())?.project.name).toBe('from mine');
  });
});

describe('a damaged store', () => {
  /** A project with sixty edits: whole copies after 0 and 50. */
  async function sixty(): Promise<Tab> {
    const tab = new Tab();
    tab.begin(named('begun'));
    await tab.settled();
    for (let i = 1; i <= 60; i++) tab.edit(named(`n${i}`));
    await tab.settled();
    return tab;
  }

  async function damage(
    how: (db: Awaited<ReturnType<typeof openDB>>, id: string) => Promise<unknown>,
    tab: Tab,
  ): Promise<void> {
    const db = await openDB(databaseName);
    await how(db, tab.saving.currentId ?? '');
    db.close();
  }

  test('P19 a torn last record: the last whole edit stands, and one is said to be missing', async () => {
    const tab = await sixty();
    await damage((db, id) => db.delete('journal', [id, 60]), tab);
    const left = await found();
    expect(left?.project.name).toBe('n59');
    expect(left?.lost).toBe('1 unfinished or damaged edit left out');
  });

  test('garbage in the middle: everything before it is there, and can be gone on with', async () => {
    const tab = await sixty();
    await damage((db, id) => db.put('journal', { project: id, seq: 55, name: 3, change: 'x' }), tab);
    const again = new Tab();
    const left = await again.open(true);
    expect([left?.project.name, left?.lost]).toEqual(['n54', '6 unfinished or damaged edits left out']);
    again.edit(named('on'));
    await again.settled();
    const after = await found();
    expect([after?.project.name, after?.lost]).toEqual(['on', null]);
  });

  test('a whole copy that cannot be read: the other one and its edits take its place', async () => {
    const tab = await sixty();
    await damage(async (db, id) => {
      for (const { seq } of (await db.getAll('copies')) as WholeCopy[])
        if (seq > 0) await db.put('copies', { project: id, kind: 'base', seq, value: 'torn' });
    }, tab);
    const left = await found();
    expect([left?.project.name, left?.lost]).toEqual(['n60', null]);
  });

  test('E6 nothing readable: it is not opened, and nothing of it is deleted', async () => {
    const tab = await sixty();
    await damage(async (db) => {
      for (const copy of (await db.getAll('copies')) as WholeCopy[])
        await db.put('copies', { ...copy, value: null });
    }, tab);
    expect(await found()).toBeNull();
    expect(await new Shelf(new Device()).list()).toHaveLength(1);
  });

  test('records of any shape never bring the rebuilding down', () => {
    const change = { kind: 'keys', keys: 7 };
    const edit = { seq: 1, name: 'x', atMs: 0, change };
    const copy = { project: 'p', kind: 'base', seq: 0, name: '', atMs: 0, value: plain } as const;
    expect(rebuilt([copy], [edit as never], 1)?.lost).toBe('1 unfinished or damaged edit left out');
    expect(rebuilt([null, { value: {} }] as never, [null] as never, 3)).toBeNull();
  });
});

describe('earlier states', () => {
  test('what was undone and then edited over is put aside', async () => {
    const tab = new Tab();
    tab.begin(named('begun'));
    tab.edit(named('a'));
    tab.edit(named('b'));
    tab.undo();
    tab.edit(named('c'));
    await tab.settled();
    const asides = await tab.saving.writer?.journal.asides();
    expect(asides?.map(({ name, value }) => [name, value.name])).toEqual([['name it b', 'b']]);
  });

  test('of many states put aside the last fifty are kept', async () => {
    const tab = new Tab();
    tab.begin(named('begun'));
    for (let i = 0; i < 60; i++) {
      tab.edit(named(`n${i}`));
      tab.undo();
    }
    await tab.settled();
    const asides = await tab.saving.writer?.journal.asides();
    expect(asides).toHaveLength(50);
    expect(asides?.[0]?.value.name).toBe('n58');
    expect(asides?.at(-1)?.value.name).toBe('n9');
  });

  test('any state at hand is found again from the present', async () => {
    const tab = new Tab();
    tab.begin(named('begun'));
    for (const name of ['a', 'b', 'c']) tab.edit(named(name));
    tab.undo();
    const names = [0, 1, 2, 3].map((done) => projectAt(tab.history, tab.project, done).name);
    expect(names).toEqual(['begun', 'a', 'b', 'c']);
    await tab.settled();
  });

  test('are listed newest first, edits of one stroke as one', () => {
    let history = emptyHistory;
    const edit = (name: string, to: string, from: string, atMs: number) => {
      history = record(history, name, [named(from), named(to)], atMs)?.history ?? history;
    };
    edit('change team', 'b', 'a', 0);
    edit('change team', 'c', 'b', 1000);
    edit('change snow', 'd', 'c', 2000);
    const rows = earlierStates(history).map(({ name, count, done, isNow }) => [name, count, done, isNow]);
    expect(rows).toEqual([
      ['change snow', 1, 3, true],
      ['change team', 2, 2, false],
      ['before the first of these edits', 1, 0, false],
    ]);
  });

  test('older than thirty days are let go of, but for the last thousand; the present never', async () => {
    const tab = new Tab();
    const now = Date.now();
    tab.begin(named('begun'));
    for (let i = 0; i < atHandMax + 20; i++) tab.edit(named(`n${i}`), now - 40 * dayMs);
    await tab.settled();
    const again = new Tab();
    await again.open();
    await again.settled();
    const left = await found();
    expect(left?.project.name).toBe(`n${atHandMax + 19}`);
    expect(left?.history.edits).toHaveLength(atHandMax);
    expect(left?.history.olderOnDisk).toBe(false);
  });

  test('P20 a clock that was set back changes no order', async () => {
    const tab = new Tab();
    tab.begin(named('begun'));
    tab.edit(named('a'), 2_000_000);
    tab.edit(named('b'), 1_000_000);
    await tab.settled();
    expect((await found())?.project.name).toBe('b');
  });
});
