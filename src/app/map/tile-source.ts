import { addProtocol, type RequestParameters } from 'maplibre-gl';
import { tileProtocols, type TileProtocol } from './base-style';

export interface TilePlace {
  readonly z: number;
  readonly x: number;
  readonly y: number;
}

/** Makes one tile: a picture, or vector tile bytes for contours; null where there is nothing to show. */
export type MakeTile = (
  protocol: TileProtocol,
  place: TilePlace,
  signal: AbortSignal,
) => Promise<ImageBitmap | ArrayBuffer | null>;

/** `relief://3/12/2048/1361`: version, z, x, y. */
export function tilePlace(url: string): TilePlace | null {
  const [, z, x, y] = /^[a-z]+:\/\/[^/]+\/(\d+)\/(\d+)\/(\d+)$/.exec(url) ?? [];
  return z === undefined || x === undefined || y === undefined ? null : { z: +z, x: +x, y: +y };
}

/** Lets the map ask `makeTile` for its tiles instead of any network. Once for the life of the page. */
export function serveTiles(makeTile: MakeTile): void {
  for (const protocol of tileProtocols)
    addProtocol(protocol, async ({ url }: RequestParameters, { signal }: AbortController) => {
      const place = tilePlace(url);
      if (!place) throw new Error(`Not a tile: ${url}`);
      const tile = await makeTile(protocol, place, signal);
      // A tile without a picture is null and no error; one without contours is no bytes.
      return {
        data: tile ?? (protocol === 'contours' ? new ArrayBuffer(0) : (null as unknown as ImageBitmap)),
      };
    });
}
