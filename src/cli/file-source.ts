import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import type { ByteSource } from '../core/domain/raster';

/**
 * A local file, read by ranges and never wholly held. Reads at once: nobody waits beside it, and going through the thread pool
 * takes longer than a tile.
 */
export interface FileSource extends ByteSource {
  close(): void;
}

export function openFileSource(path: string): FileSource {
  const file = openSync(path, 'r');
  return {
    name: basename(path),
    sizeBytes: fstatSync(file).size,
    // eslint-disable-next-line @typescript-eslint/require-await -- what goes wrong is to reject, as with other sources
    async read(offset, lengthBytes, cancel) {
      cancel?.throwIfAborted();
      // Not cleared first: every byte is read over, or nothing is given.
      const bytes = new Uint8Array(Buffer.allocUnsafeSlow(lengthBytes).buffer);
      for (let done = 0; done < lengthBytes;) {
        const read = readSync(file, bytes, done, lengthBytes - done, offset + done);
        if (read === 0) throw new Error(`${path} ends before byte ${offset + lengthBytes}`);
        done += read;
      }
      return bytes;
    },
    close: () => closeSync(file),
  };
}
