import type { ByteSource } from '../core/domain/raster';

/** A file the user has chosen or dropped, read by slices and never wholly held. */
export function blobSource(name: string, blob: Blob): ByteSource {
  return {
    name,
    sizeBytes: blob.size,
    async read(offset, lengthBytes, cancel) {
      cancel?.throwIfAborted();
      if (offset + lengthBytes > blob.size) throw new Error(`${name} ends at byte ${blob.size}`);
      return new Uint8Array(await blob.slice(offset, offset + lengthBytes).arrayBuffer());
    },
  };
}
