import { inflaterInScript, type Inflater } from '../core/files/raster/codec/inflate';

/** The browser's own. It takes no data that stop before their end. */
export const inflater: Inflater = { whole: inflate, beginning: inflaterInScript.beginning };

async function inflate(deflated: Uint8Array, maxBytes: number): Promise<Uint8Array> {
  const out = new Uint8Array(maxBytes);
  const stream = new Blob([deflated as Uint8Array<ArrayBuffer>])
    .stream()
    .pipeThrough(new DecompressionStream('deflate'));
  const reader = stream.getReader();
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return out.subarray(0, length);
    if (length + value.length > maxBytes) {
      await reader.cancel();
      throw new RangeError(`inflates to more than ${maxBytes} bytes`);
    }
    out.set(value, length);
    length += value.length;
  }
}
