import type { Cancel } from '../domain/cancel';
import type { Raster } from '../domain/raster';
import { nightInks, paperInks, shadePixels, tintPixels, type ReliefInks } from './relief-colours';
import { edgePx, emptyPixels, fillFrom, pixelKind, type ReliefPixels } from './relief-sample';
import { pixelM, reaches, tileNet, type MapTile } from './relief-tile';
import { tintFrom } from './slope-tint';
import { Terrain } from './terrain';

export interface TileRequest {
  readonly rasters: readonly Raster[];
  readonly tile: MapTile;
  readonly cancel?: Cancel | undefined;
  /** A coarser level of a raster that has none fit for a far view; null: it is not shown there. Never used for slopes. */
  readonly coarser?: (raster: Raster) => Promise<Raster | null>;
}

/** Below this zoom a raster is a few pixels, and frames are asked about places they are not made for. */
const lowestZoom = 5;
/** Cells to a pixel above which a raster without coarser levels is not drawn: too much would have to be read for too little. */
const mostCellsPerPixel = 8;

/** Shaded relief of a tile, RGBA; holes and edges hatched. null where no raster reaches. */
export async function shadeTile(
  request: TileRequest,
  inks: ReliefInks = paperInks,
): Promise<Uint8ClampedArray<ArrayBuffer> | null> {
  const pixels = await reliefPixels(request);
  return pixels === null ? null : shadePixels(pixels, inks);
}

/** The same for the night theme. */
export const nightTile = (request: TileRequest): Promise<Uint8ClampedArray<ArrayBuffer> | null> =>
  shadeTile(request, nightInks);

/**
 * Slope tint of a tile, RGBA, from the rasters' own cells. null where none reaches, or where the map is so far out that too
 * many would have to be read.
 */
export async function slopeTintTile(request: TileRequest): Promise<Uint8ClampedArray<ArrayBuffer> | null> {
  const { tile } = request;
  if (tile.z < lowestZoom) return null;
  const sideM = pixelM(tile);
  const near = request.rasters.filter(({ cellM }) => sideM / cellM <= mostCellsPerPixel);
  const terrain = new Terrain(near);
  const nets = terrain.layers.map((layer) => tileNet(tile, layer.raster));
  const [pixels] = await terrain.read(
    [tile],
    () => {
      const made = { sizePx: tile.sizePx, slopesDeg: new Float32Array(tile.sizePx ** 2).fill(NaN) };
      terrain.layers.forEach((layer, k) => {
        tintFrom(layer, nets[k]!, sideM / layer.raster.cellM, made);
      });
      return made;
    },
    request.cancel,
  );
  return pixels === undefined || pixels.slopesDeg.every(Number.isNaN) ? null : tintPixels(pixels);
}

/** Elevations at the pixel centres of a tile, metres, NaN where there is none; for contours. null where no raster reaches. */
export async function elevationTile(request: TileRequest): Promise<Float32Array<ArrayBuffer> | null> {
  const pixels = await reliefPixels(request);
  return pixels === null ? null : (pixels.elevationsM as Float32Array<ArrayBuffer>);
}

/** Reads what a tile shows. null where no raster reaches. For the eye: numbers for a plan come from the stations. */
export async function reliefPixels(request: TileRequest): Promise<ReliefPixels | null> {
  const { rasters, tile, cancel } = request;
  if (tile.z < lowestZoom) return null;
  const sideM = pixelM(tile);
  const inReach = rasters.filter((raster) =>
    reaches(tileNet(tile, raster), raster, (edgePx * sideM) / raster.cellM),
  );
  const found = await Promise.all(
    inReach.map(async (raster) => {
      const own = levelFor(raster, sideM);
      if (own !== null) return own;
      const coarse = await request.coarser?.(raster);
      return coarse ? levelFor(coarse, sideM) : null;
    }),
  );
  cancel?.throwIfAborted();
  const levels = found.filter((level) => level !== null);
  const terrain = new Terrain(levels);
  const nets = terrain.layers.map((layer) => tileNet(tile, layer.raster));
  const [pixels] = await terrain.read(
    [tile],
    () => {
      const made = emptyPixels(tile.sizePx);
      terrain.layers.forEach((layer, k) => {
        fillFrom(layer, nets[k]!, sideM, made);
      });
      return made;
    },
    cancel,
  );
  return pixels === undefined || pixels.kinds.every((kind) => kind === pixelKind.nothing) ? null : pixels;
}

/** The coarsest level whose cells are no larger than a pixel; the raster itself where that is too coarse already. */
export function levelFor(raster: Raster, sideM: number): Raster | null {
  const level = [raster, ...raster.overviews]
    .filter(({ cellM }) => cellM <= sideM * 1.2)
    .reduce((best, next) => (next.cellM > best.cellM ? next : best), raster);
  return sideM / level.cellM > mostCellsPerPixel ? null : level;
}
