import { systemOfEpsg, type CrsSystem } from './system';

/** Datum names as written in citations, with their UTM codes: north from, south from. */
const utmSeries: readonly {
  readonly pattern: RegExp;
  readonly north: number;
  readonly south: number | null;
}[] = [
  { pattern: /wgs[ _]?(19)?84/i, north: 32600, south: 32700 },
  { pattern: /etrs[ _]?(19)?89/i, north: 25800, south: null },
  { pattern: /nad[ _]?(19)?83(?![ _]?\()/i, north: 26900, south: null },
];

/**
 * A system that is named and nothing more, e.g. `WGS 84 / UTM zone 32N` or `UTM Zone 32, Northern Hemisphere` with the
 * datum beside it. Only names that mean exactly one thing; null otherwise.
 */
export async function systemOfCitation(texts: readonly (string | null)[]): Promise<CrsSystem | null> {
  const all = texts.filter((text) => text !== null).join(' | ');
  const code = /\bEPSG:{1,2}(\d{4,6})\b/i.exec(all)?.[1];
  if (code !== undefined) return systemOfEpsg(Number(code));
  const utm = /UTM[ _,]*zone[ _]*(\d{1,2})[ _]*([NS]?)\b/i.exec(all);
  if (utm === null) return null;
  const zone = Number(utm[1]);
  const letter = utm[2]!.toUpperCase();
  const isSouth = letter === 'S' || /southern hemisphere/i.test(all);
  const isNorth = letter === 'N' || /northern hemisphere/i.test(all);
  const series = utmSeries.filter(({ pattern }) => pattern.test(all));
  const only = series[0];
  if (zone < 1 || zone > 60 || isSouth === isNorth || series.length !== 1 || only === undefined) return null;
  const first = isSouth ? only.south : only.north;
  return first === null ? null : systemOfEpsg(first + zone);
}
