import { Inflate } from 'pako';

/** Undoes zlib or raw deflate data; rejects when the data are damaged or give more than `maxBytes`. */
export type InflateBytes = (deflated: Uint8Array, maxBytes: number) => Promise<Uint8Array>;

/** In script, for runtimes whose own inflater is not handed in. */
export function inflateInScript(deflated: Uint8Array, maxBytes: number): Promise<Uint8Array> {
  const out = new Uint8Array(maxBytes);
  let length = 0;
  const inflate = new Inflate({ chunkSize: Math.min(maxBytes + 1, 1 << 18) });
  inflate.onData = (part: Uint8Array) => {
    if (length + part.length > maxBytes) throw new RangeError(`inflates to more than ${maxBytes} bytes`);
    out.set(part, length);
    length += part.length;
  };
  try {
    inflate.push(deflated, true);
  } catch (cause) {
    return Promise.reject(cause instanceof Error ? cause : new Error(String(cause)));
  }
  if (inflate.err !== 0) return Promise.reject(new Error(inflate.msg || `inflate error ${inflate.err}`));
  return Promise.resolve(out.subarray(0, length));
}
