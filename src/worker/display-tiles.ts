import mlcontour from 'maplibre-contour';
import type { Cancel } from '../core/domain/cancel';
import type { Raster } from '../core/domain/raster';
import { coarsen } from '../core/ground/coarsen';
import { elevationTile, nightTile, shadeTile, slopeTintTile } from '../core/ground/relief';
import { terrainPixels } from '../core/ground/terrain-tile';
import { withFewerCorners } from './contour-corners';
import type { TileAsk, TileKind } from './ground-calls';
import type { OpenRasters } from './open-rasters';
import { breathe } from './serve';

/** Pixels along the side of what is drawn, and of a tile of heights or the grid of a contour tile. */
const [pictureSidePx, gridSide] = [512, 256];

/** Up to here a contour tile is made from twice as fine a grid: one as wide as a picture's would skip too many cells. */
const coarseZoom = 11;

/** Metres between contours and between index contours, by the zoom of the tile (512 pixels a side). */
const intervalsM: Readonly<Record<number, readonly [number, number]>> = {
  8: [500, 2500],
  9: [200, 1000],
  10: [200, 1000],
  11: [100, 500],
  12: [50, 250],
  13: [20, 100],
  14: [10, 50],
  15: [10, 50],
  16: [5, 25],
};
const intervalsFt: typeof intervalsM = {
  8: [1000, 5000],
  9: [1000, 5000],
  10: [500, 2500],
  11: [200, 1000],
  12: [200, 1000],
  13: [100, 500],
  14: [40, 200],
  15: [40, 200],
  16: [20, 100],
};
const feetPerMetre = 1 / 0.3048;

const pixelsOf = {
  relief: shadeTile,
  'relief-by-night': nightTile,
  slope: slopeTintTile,
  terrain: terrainTile,
} as const;

async function terrainTile(request: Parameters<typeof elevationTile>[0]) {
  const elevationsM = await elevationTile(request);
  return elevationsM && terrainPixels(elevationsM, request.tile.sizePx);
}

/** Pictures and contours of the rasters that are shown, tile by tile. For the eye only. */
export class DisplayTiles {
  /** One maker, with its cache, for the rasters shown last. */
  #contours: { readonly key: string; readonly make: Contours } | null = null;

  /** Coarse levels of local files that have none of their own, made when the map is first so far out. */
  readonly #coarse = new WeakMap<Raster, Promise<Raster>>();

  constructor(readonly rasters: OpenRasters) {}

  async picture(
    kind: TileKind,
    { rasterKeys, ...place }: TileAsk,
    cancel: Cancel,
  ): Promise<ImageBitmap | null> {
    // A tile that was scrolled away while it waited is cancelled here, before any work.
    await breathe();
    cancel.throwIfAborted();
    const sizePx = kind === 'terrain' ? gridSide : pictureSidePx;
    const rgba = await pixelsOf[kind]({
      rasters: await this.rasters.of(rasterKeys),
      tile: { ...place, sizePx },
      cancel,
      coarser: this.#coarser,
    });
    return rgba && createImageBitmap(new ImageData(rgba, sizePx, sizePx), exactly);
  }

  async contours(place: TileAsk, feet: boolean, cancel: AbortSignal): Promise<ArrayBuffer | null> {
    await breathe();
    cancel.throwIfAborted();
    const key = JSON.stringify([feet, place.rasterKeys]);
    if (this.#contours?.key !== key)
      this.#contours = { key, make: this.#makeContours(feet, place.rasterKeys) };
    return this.#contours.make(place, cancel);
  }

  /** Reads the whole file once, so remote ones are left alone. */
  readonly #coarser = async (raster: Raster): Promise<Raster | null> => {
    if (this.rasters.isRemote(raster)) return null;
    const known = this.#coarse.get(raster);
    if (known !== undefined) return known;
    const making = coarsen(raster, { factor: 8, breathe });
    making.catch(() => this.#coarse.delete(raster));
    this.#coarse.set(raster, making);
    return making;
  };

  #makeContours(feet: boolean, rasterKeys: readonly string[]): Contours {
    const manager = new mlcontour.LocalDemManager({
      demUrlPattern: '{z}/{x}/{y}',
      cacheSize: 200,
      encoding: 'terrarium',
      maxzoom: 20,
      timeoutMs: 60_000,
      // Our elevations are numbers already: the address goes through in the place of an encoded picture.
      getTile: (url) => Promise.resolve({ data: url as unknown as Blob }),
      decodeImage: async (url) => {
        const [z = 0, x = 0, y = 0] = (url as unknown as string).split('/').map(Number);
        const side = z <= coarseZoom ? 2 * gridSide : gridSide;
        const data = await elevationTile({
          rasters: await this.rasters.of(rasterKeys),
          tile: { z, x, y, sizePx: side },
          coarser: this.#coarser,
        });
        return { width: side, height: side, data: data ?? new Float32Array(side * side).fill(NaN) };
      },
    });
    return async ({ z, x, y }, cancel) => {
      const intervals = (feet ? intervalsFt : intervalsM)[Math.min(16, z)];
      if (!intervals) return null;
      const stop = new AbortController();
      cancel.addEventListener('abort', () => stop.abort(), { once: true });
      const { arrayBuffer } = await manager.fetchContourTile(
        z,
        x,
        y,
        {
          levels: [...intervals],
          multiplier: feet ? feetPerMetre : 1,
          contourLayer: 'contours',
          elevationKey: 'ele',
          levelKey: 'level',
          overzoom: 0,
          buffer: 1,
          extent: 4096,
          subsampleBelow: 100,
        },
        stop,
      );
      return arrayBuffer.byteLength > 0 ? withFewerCorners(arrayBuffer) : null;
    };
  }
}

type Contours = (place: TileAsk, cancel: AbortSignal) => Promise<ArrayBuffer | null>;

/** Premultiplied, as the map library draws pictures: it cannot do so itself with a bitmap. Opaque heights stay exact. */
const exactly: ImageBitmapOptions = { premultiplyAlpha: 'premultiply', colorSpaceConversion: 'none' };
