/** Compression schemes by TIFF number: those that are read, and the names of others for the refusal. */
const supported: ReadonlySet<number> = new Set([1, 5, 8, 32773, 32946, 34887, 50000]);

const names: Readonly<Record<number, string>> = {
  1: 'none',
  2: 'CCITT',
  3: 'CCITT fax 3',
  4: 'CCITT fax 4',
  5: 'LZW',
  6: 'old JPEG (lossy)',
  7: 'JPEG (lossy)',
  8: 'deflate',
  32773: 'PackBits',
  32946: 'deflate',
  34712: 'JPEG 2000',
  34887: 'LERC',
  34925: 'LZMA',
  50000: 'ZSTD',
  50001: 'WebP (lossy)',
  50002: 'JPEG XL',
};

export const isSupportedCompression = (code: number) => supported.has(code);

export const compressionName = (code: number) => names[code] ?? 'unknown';
