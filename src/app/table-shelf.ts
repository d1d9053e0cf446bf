import type { Snow } from '../core/domain/snow';
import { mergeTables, type SlipTables, type TableQuality } from '../core/slip/tables';
import type { Client } from '../worker/client';
import type { SlipCalls } from '../worker/slip-calls';
import { isSame, type Question, type TeamAsk } from './questions';

interface Built {
  readonly tables: Promise<SlipTables>;
  isThere: boolean;
}

/** Slip tables of the present team, snow by snow: another team empties the shelf, another snow only adds to it. */
export class TableShelf {
  #team: Question<TeamAsk> | null = null;
  #stop = new AbortController();
  readonly #built = new Map<string, Built>();
  /** Put together before: the same snows give the same object, so that nobody is sent it twice. */
  readonly #merged = new Map<string, SlipTables>();

  constructor(readonly slip: Client<SlipCalls>) {}

  setTeam(team: Question<TeamAsk>): void {
    if (this.#team && isSame(this.#team, team)) return;
    this.clear();
    this.#team = team;
  }

  clear(): void {
    this.#stop.abort();
    this.#stop = new AbortController();
    this.#built.clear();
    this.#merged.clear();
    this.#team = null;
  }

  has(snows: readonly Snow[], quality: TableQuality): boolean {
    return snows.every((snow) => this.#built.get(keyOf(snow, quality))?.isThere);
  }

  /** Builds what is missing, one snow after the other in the order given. */
  async tables(snows: readonly Snow[], quality: TableQuality): Promise<SlipTables> {
    const parts: SlipTables[] = [];
    for (const snow of snows) parts.push(await this.#one(snow, quality));
    const [first, ...rest] = parts;
    if (!first) throw new Error('A plan without any snow');
    const key = snows.map((snow) => keyOf(snow, quality)).join();
    const known = this.#merged.get(key);
    // Of another team by now?
    if (known && known.sheets[0] === first.sheets[0]) return known;
    const merged = mergeTables([first, ...rest]);
    this.#merged.set(key, merged);
    return merged;
  }

  #one(snow: Snow, quality: TableQuality): Promise<SlipTables> {
    const key = keyOf(snow, quality);
    const known = this.#built.get(key);
    if (known) return known.tables;
    if (!this.#team) throw new Error('Slip tables of no team');
    const ask = { ...this.#team.ask(), snows: [snow], quality };
    const built: Built = {
      tables: this.slip.ask('buildTables', ask, { signal: this.#stop.signal }),
      isThere: false,
    };
    this.#built.set(key, built);
    built.tables.then(
      () => (built.isThere = true),
      () => {
        if (this.#built.get(key) === built) this.#built.delete(key);
      },
    );
    return built.tables;
  }
}

const keyOf = ({ hardness, wetness }: Snow, quality: TableQuality): string =>
  `${hardness} ${wetness} ${quality}`;
