type Inflate = (deflated: Uint8Array, maxBytes: number) => Promise<Uint8Array>;

/** Undoes zlib data. Rejects when they are damaged or give more than `maxBytes`. */
export interface Inflater {
  readonly whole: Inflate;
  /** Of data that stop before their end: what they give until there. */
  readonly beginning: Inflate;
}

/** zlib's Z_SYNC_FLUSH. */
const syncFlush = 2;

/** In script, for runtimes whose own inflater is not handed in. */
export const inflaterInScript: Inflater = {
  whole: (deflated, maxBytes) => inflate(deflated, maxBytes, true),
  beginning: (deflated, maxBytes) => inflate(deflated, maxBytes, syncFlush),
};

async function inflate(deflated: Uint8Array, maxBytes: number, flush: true | number): Promise<Uint8Array> {
  const { Inflate } = await import('pako'); // not needed where the platform inflates
  const out = new Uint8Array(maxBytes);
  let length = 0;
  const inflate = new Inflate({ chunkSize: Math.min(maxBytes + 1, 1 << 18) });
  inflate.onData = (part: Uint8Array) => {
    if (length + part.length > maxBytes) throw new RangeError(`inflates to more than ${maxBytes} bytes`);
    out.set(part, length);
    length += part.length;
  };
  inflate.push(deflated, flush);
  if (inflate.err !== 0) throw new Error(inflate.msg || `inflate error ${inflate.err}`);
  return out.subarray(0, length);
}
