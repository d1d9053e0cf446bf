import { constants, inflateSync } from 'node:zlib';
import type { Inflater } from '../core/files/raster/codec/inflate';

/** Node's own, which refuses to grow beyond the bound. */
export const inflater: Inflater = {
  whole: inflating(constants.Z_FINISH),
  beginning: inflating(constants.Z_SYNC_FLUSH),
};

function inflating(finishFlush: number): Inflater['whole'] {
  // eslint-disable-next-line @typescript-eslint/require-await -- what goes wrong is to reject, as with other inflaters
  return async (deflated, maxBytes) => {
    // A usual tile comes out in one piece: the byte to spare lets zlib see that it is at the end.
    const chunkSize = Math.max(64, Math.min(maxBytes + 1, 2 ** 20));
    return inflateSync(deflated, { maxOutputLength: maxBytes, chunkSize, finishFlush });
  };
}
