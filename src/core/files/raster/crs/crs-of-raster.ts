import type { Question } from '../../../domain/problem';
import { refuse } from '../refusal';
import { geoKey, type GeoKeys } from '../tiff/geo-keys';
import { systemOfCitation } from './citation';
import { utmZone } from './projection-of-keys';
import { systemOfEpsg, type CrsSystem } from './system';
import { geographicOfKeys, projectedOfKeys, type Incomplete } from './user-defined';

/** Common choices to offer; any other code can be typed. */
export const crsQuestion: Question = {
  kind: 'crs',
  flag: '--crs EPSG:n',
  choices: [
    { value: 'EPSG:4326', label: 'longitude and latitude, WGS 84 (EPSG:4326)' },
    { value: 'EPSG:32632', label: 'UTM zone 32 north, WGS 84 (EPSG:32632)' },
    { value: 'EPSG:25832', label: 'UTM zone 32 north, ETRS89 (EPSG:25832)' },
    { value: 'EPSG:2056', label: 'Swiss LV95 (EPSG:2056)' },
    { value: 'EPSG:3857', label: 'web Mercator (EPSG:3857)' },
  ],
};

/** The system by the user's word. */
export async function chosenSystem(name: string, text: string): Promise<CrsSystem> {
  const code = /^\s*(?:EPSG:{1,2})?(\d{4,6})\s*$/i.exec(text)?.[1];
  if (code === undefined)
    return refuse(
      'CRS-004',
      name,
      null,
      `"${text.slice(0, 60)}" is no coordinate system that can be named here`,
    );
  return byCode(name, Number(code));
}

/** The system by the file's keys: its code, else what the keys spell out, else what they name. Refuses what cannot be placed. */
export async function systemOfKeys(name: string, keys: GeoKeys): Promise<CrsSystem> {
  const projected = keys.number(geoKey.projectedCrs);
  const geodetic = keys.number(geoKey.geodeticCrs);
  const model = keys.number(geoKey.modelType);
  if (model === 3)
    refuse('CRS-005', name, null, 'is in geocentric coordinates, which no map raster can be in');
  const isGeographic = model === 2 || (model !== 1 && Number.isNaN(projected) && isCode(geodetic));
  if (isGeographic && isCode(geodetic)) return byCode(name, geodetic);
  if (!isGeographic && isCode(projected)) return byCode(name, projected);
  if (keys.isEmpty || (Number.isNaN(model) && Number.isNaN(projected) && Number.isNaN(geodetic)))
    return ask(name);

  const utm = isGeographic ? null : utmCode(keys);
  if (utm !== null) return byCode(name, utm);
  const spelt = isGeographic ? await geographicOfKeys(keys) : await projectedOfKeys(keys);
  if (!('incomplete' in spelt)) return spelt;
  const citations = [geoKey.projectedCitation, geoKey.citation, geoKey.geodeticCitation].map((key) =>
    keys.text(key),
  );
  return (await systemOfCitation(citations)) ?? refuseIncomplete(name, spelt, citations);
}

const isCode = (code: number) => code >= 1024 && code < 32767;

/** A UTM zone on WGS 84 has a code; on other datums the keys spell it out. */
function utmCode(keys: GeoKeys): number | null {
  const utm = utmZone(keys);
  if (utm === null || keys.number(geoKey.geodeticCrs) !== 4326) return null;
  return (utm.isSouth ? 32700 : 32600) + utm.zone;
}

async function byCode(name: string, code: number): Promise<CrsSystem> {
  return (await systemOfEpsg(code)) ?? refuse('CRS-002', name, null, `EPSG:${code} is not known here`);
}

export function ask(name: string): never {
  return refuse('CRS-001', name, null, 'does not say which coordinate system it is in', {
    question: crsQuestion,
    remedy: 'Say which one it is.',
  });
}

function refuseIncomplete(
  name: string,
  { incomplete }: Incomplete,
  citations: readonly (string | null)[],
): never {
  const said = citations.find((text): text is string => text !== null && text.trim() !== '');
  const named = said === undefined ? '' : ` ("${said.slice(0, 80)}")`;
  return refuse(
    'CRS-005',
    name,
    null,
    `has a coordinate system of its own${named} that is not fully described: ${incomplete}`,
    {
      question: crsQuestion,
    },
  );
}
