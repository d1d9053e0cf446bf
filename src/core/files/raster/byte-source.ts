import type { ByteSource } from '../../domain/raster';

/** Bytes that are already in memory. */
export function bufferSource(name: string, bytes: Uint8Array): ByteSource {
  return {
    name,
    sizeBytes: bytes.length,
    read(offset, lengthBytes, cancel) {
      if (cancel?.aborted) return Promise.reject(new Error('cancelled'));
      if (offset < 0 || offset + lengthBytes > bytes.length)
        return Promise.reject(new Error(`${name} ends at byte ${bytes.length}`));
      return Promise.resolve(bytes.subarray(offset, offset + lengthBytes));
    },
  };
}
