import { loadCrsTable, loadUsualTable, type Area, type DatumShift } from './table';

/** A coordinate system whose datum shift still depends on where the raster lies. */
export interface CrsSystem {
  readonly name: string;
  readonly epsg: number | null;
  readonly isGeographic: boolean;
  readonly text: string;
  readonly unitM: number | null;
  /** Where it is meant to be used; null when nobody says. */
  readonly area: Area | null;
  readonly shifts: readonly DatumShift[];
}

/** A system by its EPSG code; null when it is not known here. */
export async function systemOfEpsg(epsg: number): Promise<CrsSystem | null> {
  const found = (await loadUsualTable()).find(epsg) ?? (await loadCrsTable()).find(epsg);
  if (found === null) return null;
  const { isGeographic, text } = found;
  const unitM = isGeographic ? null : Number(/\+to_meter=(\S+)/.exec(text)?.[1] ?? 1);
  return { ...found, name: `EPSG:${epsg}`, epsg, unitM };
}
