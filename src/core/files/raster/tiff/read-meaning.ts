import type { Note } from '../../../domain/problem';
import type { CellMeaning } from '../cell-meaning';
import type { CrsDefinition } from '../crs/frame';
import {
  metresOfUnitCode,
  metresOfUnitText,
  metresPer,
  type ElevationUnit,
  type StatedUnit,
} from '../elevation-unit';
import { refuse } from '../refusal';
import type { FieldValues } from './field-values';
import type { BandMetadata } from './gdal-metadata';
import { geoKey, type GeoKeys } from './geo-keys';
import { parseNodata } from './nodata';
import { tag } from './tags';

interface Facts {
  readonly values: FieldValues;
  readonly keys: GeoKeys;
  readonly metadata: BandMetadata;
  readonly crs: CrsDefinition;
  readonly notes: Note[];
}

/** Nodata, scale, offset and unit of the elevations, from the file and, where it is silent, from the user. */
export async function readMeaning(facts: Facts, chosen: ElevationUnit | undefined): Promise<CellMeaning> {
  const { values, metadata } = facts;
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
  const stated = statedUnit(facts);
  const metresPerUnit = chosen === undefined ? (stated?.metres ?? 1) : metresPer[chosen];
  return { nodata: nodata.kind === 'value' ? nodata.value : null, scale, offset, metresPerUnit };
}

/** The file's own word on the unit: the band's unit first, then the vertical keys. null: silent. */
export function statedUnit({ metadata, keys }: Pick<Facts, 'metadata' | 'keys'>): StatedUnit | null {
  const byBand = metadata.unit === null ? null : metresOfUnitText(metadata.unit);
  if (byBand !== null) return { metres: byBand, where: 'band unit' };
  const byKey = metresOfUnitCode(keys.number(geoKey.verticalUnits));
  return byKey === null ? null : { metres: byKey, where: 'vertical unit key' };
}
