import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Page } from 'playwright-core';
import type { Figure } from '../bench/figure';
import { builtApp } from '../browser/built-app';
import { executablePath } from '../browser/launch';
import { serveFolder } from '../browser/static-server';
import { startBrowser } from './killable-browser';

/**
 * The whole browser killed (SIGKILL) at random moments while the page is edited, undone, saved to files, given tracks, or
 * brought from the storage of version 1; then opened again. Lost: the page had said "Saved" of a state, and neither it nor a
 * later one is there. Broken: nothing, or nothing whole, is there.
 */
export default async function crashFigures(): Promise<readonly Figure[]> {
  const kills = Number(process.env['FIRNWARD_KILLS'] ?? 200);
  if (executablePath === null)
    return [none('kills'), none('acknowledged-edits-lost'), none('broken-projects')];
  const server = await serveFolder(await builtApp());
  const folder = mkdtempSync(join(tmpdir(), 'firnward-crash-'));
  const random = randomFrom(20_26);
  const toll = { kills: 0, acknowledged: 0, unfinished: 0, lost: 0, broken: 0 };
  try {
    const upgrades = Math.round(kills / 8);
    await editing(server.origin, join(folder, 'edits'), kills - upgrades, random, toll);
    await upgrading(server.origin, folder, upgrades, random, toll);
  } finally {
    server.close();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
  return [
    { name: 'kills', value: toll.kills, unit: 'times', limit: { atLeast: 200 } },
    { name: 'acknowledged-edits', value: toll.acknowledged, unit: 'edits', limit: { atLeast: toll.kills } },
    { name: 'unfinished-edits-found-or-gone', value: toll.unfinished, unit: 'edits', limit: null },
    { name: 'acknowledged-edits-lost', value: toll.lost, unit: 'edits', limit: { atMost: 0 } },
    { name: 'broken-projects', value: toll.broken, unit: 'projects', limit: { atMost: 0 } },
  ];
}

const none = (name: string): Figure => ({ name, value: null, unit: '-', limit: null, why: 'no Chromium' });

interface Toll {
  kills: number;
  acknowledged: number;
  unfinished: number;
  lost: number;
  broken: number;
}

/** Of one life of the browser: what the page tried, and what it said was saved, in order. */
type Told = readonly ['tried' | 'saved', string];

const track = readFileSync(resolve(process.cwd(), 'sample-tracks/ombry-headwall.gpx'), 'utf8');

async function editing(
  origin: string,
  profile: string,
  kills: number,
  random: () => number,
  toll: Toll,
): Promise<void> {
  let told: Told[] = [];
  for (let i = 0; i <= kills; i++) {
    const { page, kill } = await startBrowser(executablePath ?? '', profile);
    try {
      const name = await nameAfterOpening(page, origin);
      if (i > 0) judge(name, told, toll);
      if (i === kills) return;
      told = [['saved', name]];
      await page.exposeBinding(
        'tell',
        (_, kind: 'tried' | 'saved', what: string) => void told.push([kind, what]),
      );
      await page.evaluate(edit, { life: i, track }).catch(() => {});
      await new Promise((next) => setTimeout(next, 150 + 2500 * random()));
    } finally {
      await kill();
    }
    toll.kills++;
    toll.acknowledged += told.filter(([kind]) => kind === 'saved').length - 1;
  }
}

/** Whether what was found is the last state said to be saved, or one that was tried after it. */
function judge(name: string, told: readonly Told[], toll: Toll): void {
  const saved = told.findLastIndex(([kind]) => kind === 'saved');
  const after = told.slice(saved + 1).map(([, what]) => what);
  if (name === '') toll.broken++;
  else if (name === told[saved]?.[1]) toll.unfinished += after.length;
  else if (after.includes(name)) toll.unfinished += after.length;
  else {
    toll.lost++;
    console.error(`lost: "${name}" was found; saved "${told[saved]?.[1]}", tried since ${after.join(', ')}`);
  }
}

/** In the page: edits without end, each waited for until the page says that it is saved. Every project's name says its edit. */
async function edit({ life, track }: { life: number; track: string }): Promise<void> {
  const { tell } = window as unknown as { tell: (kind: string, what: string) => Promise<void> };
  const find = <E extends Element>(what: string) => document.querySelector<E>(what);
  const shown = () => find('header .name')?.textContent ?? '';
  const isSaved = () => find('header .saved')?.textContent?.startsWith('Saved on') ?? false;
  const next = () => new Promise((done) => setTimeout(done, 0));
  const press = (label: RegExp) =>
    [...document.querySelectorAll('button')].find((each) => label.test(each.textContent ?? ''))?.click();
  find<HTMLElement>('#tab-prepare')?.click();
  while (!find('.steps')) await next();
  find<HTMLElement>('.steps [aria-controls="step-line"]')?.click();
  while (!find('.line .name input')) await next();
  const settle = async (name: string) => {
    do await next();
    while (shown() !== name || !isSaved());
    void tell('saved', name);
  };
  void (async () => {
    for (let n = 1; ; n++) {
      const name = `${life}.${n}`;
      const field = find<HTMLInputElement>('.line .name input');
      if (!field) return;
      const before = shown();
      // Only then is it tried: no word of it is still on its way when the browser is killed.
      await tell('tried', name);
      field.value = name;
      field.dispatchEvent(new Event('change', { bubbles: true }));
      await settle(name);
      if (n % 5 === 0) {
        await tell('tried', before);
        find<HTMLElement>('header button[aria-label^="Undo"]')?.click();
        await settle(before);
      }
      if (n % 7 === 0) press(/^Project /);
      if (n % 20 === 0) {
        const given = new DataTransfer();
        // Another line each time: one that is there already would only be asked about.
        const moved = track.replaceAll(
          /lat="([-.\d]+)"/g,
          (_, lat) => `lat="${Number(lat) + (life + n) / 1e5}"`,
        );
        given.items.add(new File([moved], 'headwall.gpx'));
        document.body.dispatchEvent(new DragEvent('drop', { bubbles: true, dataTransfer: given }));
      }
    }
  })();
}

/** The name of the project that is there after opening; empty: none, or a damaged one. */
async function nameAfterOpening(page: Page, origin: string): Promise<string> {
  page.setDefaultTimeout(60_000);
  await page.goto(origin);
  const name = page.locator('header .name');
  try {
    await name.filter({ hasText: /\S/ }).waitFor({ state: 'attached' });
  } catch {
    return '';
  }
  const messages = await page.locator('.messages').innerText();
  return /damaged|left out/.test(messages) ? '' : ((await name.textContent()) ?? '');
}

/** Killed while the storage of version 1 is brought over: afterwards the project is there, whichever version it is in. */
async function upgrading(
  origin: string,
  folder: string,
  kills: number,
  random: () => number,
  toll: Toll,
): Promise<void> {
  const old = join(folder, 'version-1');
  const first = await startBrowser(executablePath ?? '', old);
  const text = readFileSync(resolve(process.cwd(), 'public/demo/ombry.firnward.json'), 'utf8');
  await first.page.goto(`${origin}/icon.svg`);
  await first.page.evaluate(writeVersion1, text);
  await new Promise((next) => setTimeout(next, 500));
  await first.kill();
  for (let i = 0; i < kills; i++) {
    const profile = join(folder, `upgrade-${i}`);
    // Without the marks by which the killed browser said that the profile was its own.
    cpSync(old, profile, { recursive: true, filter: (path) => !/Singleton/.test(path) });
    const { page, kill } = await startBrowser(executablePath ?? '', profile);
    const opening = page.goto(origin).catch(() => {});
    await new Promise((next) => setTimeout(next, 100 + 1500 * random()));
    await kill();
    await opening;
    toll.kills++;
    const again = await startBrowser(executablePath ?? '', profile);
    const name = await nameAfterOpening(again.page, origin);
    if (name !== 'kept 400') toll.broken++;
    else toll.acknowledged++;
    await again.kill();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** In the page: four hundred edits as the first version kept them. */
function writeVersion1(text: string): Promise<void> {
  const project = JSON.parse(text) as Record<string, unknown>;
  return new Promise((done, fail) => {
    const opening = indexedDB.open('firnward', 1);
    opening.onerror = () => fail(new Error('no storage'));
    opening.onupgradeneeded = () => {
      opening.result.createObjectStore('edits', { keyPath: 'seq' });
      opening.result.createObjectStore('state');
      opening.result.createObjectStore('files', { keyPath: 'key' });
    };
    opening.onsuccess = () => {
      const tx = opening.result.transaction(['edits', 'state'], 'readwrite', { durability: 'strict' });
      for (let seq = 1; seq <= 400; seq++) {
        const replace = { kind: 'replace', before: `kept ${seq - 1}`, after: `kept ${seq}` };
        const change = { kind: 'keys', keys: [['name', replace]] };
        tx.objectStore('edits').put({ seq, name: 'rename', atMs: 1000 * seq, change });
      }
      tx.objectStore('state').put({ seq: 350, project: { ...project, name: 'kept 350' } }, 'base');
      tx.objectStore('state').put(400, 'position');
      tx.oncomplete = () => done();
      tx.onerror = () => fail(new Error('not written'));
    };
  });
}

/** mulberry32 (public domain). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
