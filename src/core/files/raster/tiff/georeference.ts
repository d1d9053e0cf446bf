import type { Affine } from '../../../domain/raster';
import { refuse } from '../refusal';
import { readWorldFile } from '../world-file';
import type { FieldValues } from './field-values';
import { geoKey, type GeoKeys } from './geo-keys';
import { tag } from './tags';

/** Where the file's own rows and columns lie. Rows may run south to north, columns east to west; never rotated. */
export interface Placement {
  /** North up, columns to the east: what the raster shows outside. */
  readonly affine: Affine;
  readonly rowsRunNorth: boolean;
  readonly columnsRunWest: boolean;
  readonly isPoint: boolean;
}

/**
 * Reads the raster's place in its coordinate system (OGC 19-008r4, 7.1 and annex B.6): tie point with I and J and the
 * pixel scale, or the 4 x 4 matrix. With PixelIsPoint the tie is at a cell's centre: half a cell is taken off. Where the file
 * has neither, the world file that came with it.
 */
export async function readPlacement(
  values: FieldValues,
  keys: GeoKeys,
  widthPx: number,
  heightPx: number,
  worldFile: string | undefined,
): Promise<Placement> {
  const { name } = values.reader;
  const matrix = await values.numbers(tag.modelTransformation);
  const scale = await values.numbers(tag.modelPixelScale);
  const ties = await values.numbers(tag.modelTiepoint);
  const own = ownPlacement(matrix, scale, ties);
  if (own === null && worldFile === undefined) return refuseUnplaced(values, ties.length);
  const isPoint = own !== null && keys.number(geoKey.rasterType) === 2;
  const stored = own ?? readWorldFile(name, worldFile!);
  // The standard turns the rows round for a negative scale; GDAL, by default, does not. No reading is safe.
  if (matrix.length < 16 && (scale[1] ?? 0) < 0)
    refuse(
      'TIF-012',
      name,
      'tag 33550',
      `has a negative row height (${scale[1]}), which readers understand differently`,
    );
  const numbers = Object.values(stored);
  if (!numbers.every(Number.isFinite)) refuse('TIF-010', name, 'position', 'is not made of finite numbers');
  if (
    Math.abs(stored.rowX) > 1e-9 * Math.abs(stored.colX) ||
    Math.abs(stored.colY) > 1e-9 * Math.abs(stored.rowY)
  )
    refuse('TIF-012', name, 'position', 'is a rotated or sheared grid');
  if (stored.colX === 0 || stored.rowY === 0) refuse('TIF-010', name, 'position', 'gives cells of no size');
  return upright(isPoint ? halfCellBack(stored) : stored, widthPx, heightPx, isPoint);
}

function ownPlacement(
  matrix: readonly number[],
  scale: readonly number[],
  ties: readonly number[],
): Affine | null {
  if (matrix.length >= 16) return fromMatrix(matrix);
  return scale.length >= 2 && ties.length >= 6 ? fromTie(scale, ties) : null;
}

function fromMatrix(m: readonly number[]): Affine {
  const [colX = NaN, rowX = NaN, , x0 = NaN, colY = NaN, rowY = NaN, , y0 = NaN] = m;
  return { x0, y0, colX, colY, rowX, rowY };
}

function fromTie(scale: readonly number[], ties: readonly number[]): Affine {
  const [scaleX = NaN, scaleY = NaN] = scale;
  const [i = NaN, j = NaN, , x = NaN, y = NaN] = ties;
  const rowY = -scaleY; // rows run south, y runs north
  return { x0: x - i * scaleX, y0: y - j * rowY, colX: scaleX, colY: 0, rowX: 0, rowY };
}

function halfCellBack(a: Affine): Affine {
  return { ...a, x0: a.x0 - (a.colX + a.rowX) / 2, y0: a.y0 - (a.colY + a.rowY) / 2 };
}

function upright(a: Affine, widthPx: number, heightPx: number, isPoint: boolean): Placement {
  const rowsRunNorth = a.rowY > 0;
  const columnsRunWest = a.colX < 0;
  const affine = {
    x0: columnsRunWest ? a.x0 + widthPx * a.colX : a.x0,
    y0: rowsRunNorth ? a.y0 + heightPx * a.rowY : a.y0,
    colX: Math.abs(a.colX),
    colY: 0,
    rowX: 0,
    rowY: -Math.abs(a.rowY),
  };
  return { affine, rowsRunNorth, columnsRunWest, isPoint };
}

function refuseUnplaced(values: FieldValues, ties: number): never {
  const { name } = values.reader;
  if (ties >= 12)
    refuse(
      'TIF-011',
      name,
      'position',
      `has ${ties / 6} ground control points only, which need warping first`,
    );
  if (values.has(tag.rpcCoefficients))
    refuse('TIF-011', name, 'position', 'has camera coefficients (RPC) only, which need warping first');
  return refuse('TIF-010', name, null, 'has no position information');
}
