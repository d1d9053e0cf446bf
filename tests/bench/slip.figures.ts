import { Worker, isMainThread, parentPort, workerData } from 'node:worker_threads';
import { fileURLToPath } from 'node:url';
import { defaultFigures } from '../../src/core/assumptions/figures';
import { variantName, variants, type Variant } from '../../src/core/domain/mode';
import { defaultParty, type Ability, type Party } from '../../src/core/domain/rope-team';
import { hardnesses, type Hardness } from '../../src/core/domain/snow';
import { drawSlips } from '../../src/core/slip/draws';
import { slipFollower } from '../../src/core/slip/slip-follower';
import {
  buildTables,
  sharesAt,
  unheldAt,
  type SlipTables,
  type TableQuality,
} from '../../src/core/slip/tables';
import { medianMs, type Figure } from './figure';

/** How fast people slip, how fast tables stand, and how near the tables are to long simulations. */

const snows = hardnesses.map((hardness) => ({ hardness, wetness: 'D' }) as const);

const teamOf = (...abilities: readonly Ability[]): Party => ({
  ...defaultParty,
  climbers: abilities.map((ability, i) => ({ name: `${i}`, massKg: 80, ability, mayLead: i === 0 })),
});

const five = teamOf('expert', 'solid', 'learning', 'unreliable', 'solid');

interface Part {
  readonly slipPart: true;
  readonly index: number;
  readonly quality: TableQuality;
}

if (!isMainThread && (workerData as Part | null)?.slipPart) {
  const { index, quality } = workerData as Part;
  const { sheets } = buildTables(five, defaultFigures, snows, { quality, part: { index, of: 2 } });
  parentPort?.postMessage(sheets.length);
}

export default async function slipFigures(): Promise<readonly Figure[]> {
  const coarse = tables('coarse');
  const final = tables('final');
  return [
    ...variants.map(slipRate),
    await buildTime('coarse-slip-tables-3-climbers-one-thread', defaultParty, 'coarse', 1000),
    await buildTime('coarse-slip-tables-5-climbers-one-thread', five, 'coarse', 1000),
    await buildTime('final-slip-tables-5-climbers-one-thread', five, 'final', null),
    await twoThreads('coarse', 1000),
    await twoThreads('final', 6000),
    await lookups(final),
    worstError('coarse-slip-tables-worst-error', coarse),
    worstError('final-slip-tables-worst-error', final),
  ];
}

const tables = (quality: TableQuality): SlipTables =>
  buildTables(defaultParty, defaultFigures, snows, { quality });

/** The slowest of the snows, each at its best of several spells. */
function slipRate(variant: Variant): Figure {
  const rates = (['4F', '1F', 'P', 'K'] as const).map((hardness) => bestRate(variant, hardness));
  return {
    name: `slips-per-second-per-core-${variantName[variant].replaceAll(' ', '-')}`,
    value: Math.round(Math.min(...rates)),
    unit: 'slips/s',
    limit: { atLeast: 500_000 },
  };
}

function bestRate(variant: Variant, hardness: Hardness): number {
  const way = { party: defaultParty, variant, snow: { hardness, wetness: 'D' }, allDevices: true } as const;
  const draws = drawSlips(3, defaultParty.rope, way.snow, defaultFigures, 4096);
  const slip = slipFollower(way, 10, defaultFigures, draws);
  let best = 0;
  for (let spell = 0; spell < 12; spell++) {
    const startMs = performance.now();
    for (let i = 0; i < draws.count; i++) {
      slip.draw(i);
      slip.standOn(32 + 1.5 * draws.slope[i]!);
      for (let slipper = 0; slipper < 3; slipper++) slip.follow(slipper);
    }
    best = Math.max(best, (3 * draws.count * 1000) / (performance.now() - startMs));
  }
  return best;
}

async function buildTime(
  name: string,
  party: Party,
  quality: TableQuality,
  atMost: number | null,
): Promise<Figure> {
  const ms = await medianMs(3, () => buildTables(party, defaultFigures, snows, { quality }));
  return { name, value: Math.round(ms), unit: 'ms', limit: atMost === null ? null : { atMost } };
}

async function twoThreads(quality: TableQuality, atMost: number): Promise<Figure> {
  const startMs = performance.now();
  await Promise.all([0, 1].map((index) => inThread({ slipPart: true, index, quality })));
  const ms = performance.now() - startMs;
  return {
    name: `${quality}-slip-tables-5-climbers-two-threads`,
    value: Math.round(ms),
    unit: 'ms',
    limit: { atMost },
  };
}

function inThread(part: Part): Promise<void> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(fileURLToPath(import.meta.url), { workerData: part });
    thread.once('message', () => resolve());
    thread.once('error', reject);
  });
}

async function lookups(ready: SlipTables): Promise<Figure> {
  const ms = await medianMs(7, () => {
    for (let i = 0; i < 10_000; i++) unheldAt(ready, placeAt(i, ready));
  });
  return {
    name: 'slip-table-lookups-10000',
    value: Number(ms.toFixed(1)),
    unit: 'ms',
    limit: { atMost: 50 },
  };
}

function worstError(name: string, ready: SlipTables): Figure {
  let worst = 0;
  for (let i = 0; i < 400; i++) {
    const place = placeAt(i, ready);
    worst = Math.max(worst, Math.abs(unheldAt(ready, place) - sharesAt(ready, place, 4096).unheld));
  }
  return { name, value: Number(worst.toFixed(2)), unit: 'of-100', limit: { atMost: ready.errorPct } };
}

/** Places spread over all that can be asked (golden-ratio steps). */
function placeAt(i: number, { turnsRoundGoingDown }: SlipTables) {
  const share = (k: number) => (i * (0.618_033_988_7 + 0.131_7 * k)) % 1;
  return {
    snow: snows[i % snows.length]!,
    variant: variants[Math.floor(i / snows.length) % variants.length]!,
    slopeDeg: 10 + 45 * share(0),
    betaDeg: 180 * share(1),
    slopeSigmaDeg: 4 * share(2),
    goingDown: turnsRoundGoingDown && i % 4 === 0,
  };
}
