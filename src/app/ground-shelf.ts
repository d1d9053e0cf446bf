import type { Station } from '../core/domain/station';
import type { Client } from '../worker/client';
import type { GroundCalls } from '../worker/ground-calls';
import { unpackStations, type ProfileColumns } from '../worker/profile-columns';
import { isSame, type Question } from './questions';

/** The ground under the line as the worker read it: in columns for the next worker, as stations for the page. */
export interface ReadGround {
  readonly columns: ProfileColumns;
  readonly stations: readonly Station[];
}

interface Reading {
  readonly question: Question<unknown>;
  readonly stop: AbortController;
  readonly read: Promise<ReadGround>;
  isThere: boolean;
}

/** One reading of the ground, kept while its question stays the same; another question cancels it. */
export class GroundShelf {
  #reading: Reading | null = null;

  constructor(
    readonly ground: Client<GroundCalls>,
    readonly onProgress: (done: number) => void,
  ) {}

  has(question: Question<unknown>): boolean {
    return this.#reading !== null && this.#reading.isThere && isSame(this.#reading.question, question);
  }

  read(question: Question<GroundCalls['readGround']['ask']>): Promise<ReadGround> {
    if (this.#reading && isSame(this.#reading.question, question)) return this.#reading.read;
    this.clear();
    const stop = new AbortController();
    const { signal } = stop;
    const read = this.ground
      .ask('readGround', question.ask(), { signal, onProgress: this.onProgress })
      .then((columns) => ({ columns, stations: unpackStations(columns.stations) }));
    const reading: Reading = { question, stop, read, isThere: false };
    this.#reading = reading;
    read.then(
      () => (reading.isThere = true),
      () => {
        if (this.#reading === reading) this.#reading = null;
      },
    );
    return read;
  }

  clear(): void {
    this.#reading?.stop.abort();
    this.#reading = null;
  }
}
