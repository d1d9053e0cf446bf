import type { HeightsFrom } from '../../../domain/raster';
import type { CellMeaning } from '../cell-meaning';
import {
  metresOfUnitCode,
  metresOfUnitText,
  metresPer,
  type ElevationUnit,
  type StatedUnit,
} from '../elevation-unit';
import { refuse } from '../refusal';
import { isDepth, metresOfVerticalSystem } from '../vertical-systems';
import type { FieldValues } from './field-values';
import type { BandMetadata } from './gdal-metadata';
import { geoKey, type GeoKeys } from './geo-keys';
import { parseNodata } from './nodata';
import { tag } from './tags';

export interface ReadMeaning {
  readonly meaning: CellMeaning;
  /** The file's own word on its unit; null: silent. */
  readonly stated: StatedUnit | null;
  readonly heightsFrom: HeightsFrom;
}

/** Nodata, scale, offset and unit of the elevations. The user's word on the unit goes before the file's. */
export async function readMeaning(
  values: FieldValues,
  keys: GeoKeys,
  metadata: BandMetadata,
  chosen: ElevationUnit | undefined,
): Promise<ReadMeaning> {
  const { name } = values.reader;
  const nodata = parseNodata(await values.text(tag.gdalNodata));
  if (nodata.kind === 'unreadable')
    refuse(
      'TIF-013',
      name,
      'tag 42113',
      `marks missing cells with "${nodata.text.slice(0, 40)}", which is no number`,
    );
  const scale = metadata.scale ?? 1;
  const offset = metadata.offset ?? 0;
  if (!Number.isFinite(scale) || scale === 0 || !Number.isFinite(offset))
    refuse('TIF-016', name, 'tag 42112', `has scale ${scale} and offset ${offset}`);
  if (isDepth(keys.number(geoKey.verticalCrs)))
    refuse('TIF-017', name, 'vertical system', `EPSG:${keys.number(geoKey.verticalCrs)} counts downwards`);
  const stated = statedUnit(keys, metadata);
  const metresPerUnit = chosen === undefined ? (stated?.metres ?? 1) : metresPer[chosen];
  return {
    meaning: { nodata: nodata.kind === 'value' ? nodata.value : null, scale, offset, metresPerUnit },
    stated,
    heightsFrom: heightsFromOf(keys),
  };
}

/** EPSG:4979 and the vertical codes 5001 to 5035 of GeoTIFF 1.0 (6.3.4.1) are heights above an ellipsoid. */
function heightsFromOf(keys: GeoKeys): HeightsFrom {
  const vertical = keys.number(geoKey.verticalCrs);
  if (keys.number(geoKey.geodeticCrs) === 4979 || vertical === 4979) return 'ellipsoid';
  if (vertical >= 5001 && vertical <= 5035) return 'ellipsoid';
  return metresOfVerticalSystem(vertical) === null ? null : 'sea level';
}

/** The band's unit first (it is nearest to the cells), then the vertical keys, then what they are called. */
export function statedUnit(keys: GeoKeys, metadata: BandMetadata): StatedUnit | null {
  const said: readonly (readonly [string, number | null])[] = [
    ['band unit', metadata.unit === null ? null : metresOfUnitText(metadata.unit)],
    ['vertical unit key', metresOfUnitCode(keys.number(geoKey.verticalUnits))],
    ['vertical system', metresOfVerticalSystem(keys.number(geoKey.verticalCrs))],
    ['vertical citation', metresOfCitation(keys.text(geoKey.verticalCitation))],
    ['citation', metresOfCitation(afterPlus(keys.text(geoKey.citation)))],
  ];
  for (const [where, metres] of said) if (metres !== null) return { metres, where };
  return null;
}

/** The second half of `NAD83 / California zone 2 (ftUS) + NAVD88 height (ftUS)` is the vertical system's name. */
const afterPlus = (citation: string | null) => /\s\+\s(.+)$/.exec(citation ?? '')?.[1] ?? null;

/** The unit in brackets at the end of a vertical system's name, where there is one. */
function metresOfCitation(citation: string | null): number | null {
  const inBrackets = /\(([^()]{1,30})\)\s*$/.exec(citation ?? '')?.[1];
  return inBrackets === undefined ? null : metresOfUnitText(inBrackets);
}
