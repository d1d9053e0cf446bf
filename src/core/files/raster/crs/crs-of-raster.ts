import type { Affine } from '../../../domain/raster';
import { refuse } from '../refusal';
import { geoKey, type GeoKeys } from '../tiff/geo-keys';
import { definitionOfEpsg } from './definition-of-epsg';
import type { CrsDefinition } from './frame';

interface PlacedGrid {
  readonly name: string;
  readonly keys: GeoKeys;
  readonly affine: Affine;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The system the raster is in: by the user's word, else by the file's keys. Refuses what cannot be placed. */
export async function crsOfRaster(grid: PlacedGrid, chosen: string | undefined): Promise<CrsDefinition> {
  const { name, keys } = grid;
  if (chosen !== undefined) return byCode(name, codeOf(name, chosen));
  const projected = keys.number(geoKey.projectedCrs);
  const geodetic = keys.number(geoKey.geodeticCrs);
  const code = keys.number(geoKey.modelType) === 2 ? geodetic : projected;
  if (!Number.isFinite(code))
    return refuse('CRS-001', name, null, 'does not say which coordinate system it is in');
  return byCode(name, code);
}

function codeOf(name: string, text: string): number {
  const code = /^\s*(?:EPSG:{1,2})?(\d{4,6})\s*$/i.exec(text)?.[1];
  return code === undefined
    ? refuse('CRS-004', name, null, `"${text.slice(0, 60)}" is no coordinate system that can be named here`)
    : Number(code);
}

async function byCode(name: string, code: number): Promise<CrsDefinition> {
  return (await definitionOfEpsg(code)) ?? refuse('CRS-002', name, null, `EPSG:${code} is not known here`);
}
