/** Bounds on what an untrusted raster may ask of us. Judgement: far above what real files need, far below what hurts. */
export const limits = {
  directories: 64,
  tags: 512,
  /** Values of one tag held in memory; longer ones (tile offsets) are read by pages. */
  tagBytes: 1 << 20,
  widthPx: 2_000_000,
  /** One tile or strip, decoded. */
  chunkBytes: 128 * 2 ** 20,
  /** One tile or strip as stored: compression never makes data this much bigger. */
  storedSlackBytes: 64 * 1024,
  samplesPerPixel: 4096,
  /** Decoded blocks kept in memory over all rasters. */
  cacheBytes: 64 * 2 ** 20,
  /** A text raster is held whole. */
  textBytes: 128 * 2 ** 20,
  textCells: 12_000_000,
} as const;
