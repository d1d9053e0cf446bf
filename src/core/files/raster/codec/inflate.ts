/** Undoes zlib or raw deflate data; rejects when the data are damaged or give more than `maxBytes`. */
export type InflateBytes = (deflated: Uint8Array, maxBytes: number) => Promise<Uint8Array>;

/** In script, for runtimes whose own inflater is not handed in. */
export async function inflateInScript(deflated: Uint8Array, maxBytes: number): Promise<Uint8Array> {
  const { Inflate } = await import('pako'); // not needed where the platform inflates
  const out = new Uint8Array(maxBytes);
  let length = 0;
  const inflate = new Inflate({ chunkSize: Math.min(maxBytes + 1, 1 << 18) });
  inflate.onData = (part: Uint8Array) => {
    if (length + part.length > maxBytes) throw new RangeError(`inflates to more than ${maxBytes} bytes`);
    out.set(part, length);
    length += part.length;
  };
  inflate.push(deflated, true);
  if (inflate.err !== 0) throw new Error(inflate.msg || `inflate error ${inflate.err}`);
  return out.subarray(0, length);
}
