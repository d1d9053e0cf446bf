import type { Cancel } from '../../../domain/cancel';
import type { GuardedReader } from '../guarded-reader';
import type { Picture } from './picture';

export interface Span {
  readonly offset: number;
  readonly lengthBytes: number;
}

/** Says where each tile or strip of the band that is read lies. */
export interface ChunkMap {
  readonly picture: Picture;
  readonly reader: GuardedReader;
  /** Rows stored in a chunk. */
  rowsOf(chunk: number): number;
  /** null: the file says there is nothing (sparse), or the part lies beyond its end. */
  span(chunk: number, cancel?: Cancel): Promise<Span | null>;
}
