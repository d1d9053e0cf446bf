import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import type { ByteSource } from '../core/domain/raster';

/** A local file, read by ranges and never wholly held. */
export interface FileSource extends ByteSource {
  close(): Promise<void>;
}

export async function openFileSource(path: string): Promise<FileSource> {
  const handle = await open(path, 'r');
  const { size } = await handle.stat();
  return {
    name: basename(path),
    sizeBytes: size,
    async read(offset, lengthBytes, cancel) {
      const bytes = new Uint8Array(lengthBytes);
      for (let done = 0; done < lengthBytes;) {
        cancel?.throwIfAborted();
        const { bytesRead } = await handle.read(bytes, done, lengthBytes - done, offset + done);
        if (bytesRead === 0) throw new Error(`${path} ends before byte ${offset + lengthBytes}`);
        done += bytesRead;
      }
      return bytes;
    },
    close: () => handle.close(),
  };
}
