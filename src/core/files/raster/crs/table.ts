/** Degrees: west, south, east, north. West above east crosses 180 degrees. */
export type Area = readonly [west: number, south: number, east: number, north: number];

/** A way to WGS 84 and where it is good. */
export interface DatumShift {
  readonly area: Area;
  /** Metres; -1 when not known. */
  readonly accuracyM: number;
  readonly isOffshore: boolean;
  /** As proj4's `+towgs84`; empty where positions stay as they are. */
  readonly parameters: readonly number[];
}

/** An entry of the table: a system without its datum shift, which depends on where the raster lies. */
export interface TabledCrs {
  readonly isGeographic: boolean;
  readonly text: string;
  readonly area: Area;
  /** In PROJ's order. */
  readonly shifts: readonly DatumShift[];
}

/** table.json, and usual.json which is a part of it, as `.scripts/make-crs-table.mjs` writes them from PROJ's database. */
interface Stored {
  readonly made: string;
  readonly texts: readonly string[];
  readonly areas: readonly (readonly number[])[];
  /** By code: [text, area, ...[area, accuracy, offshore, ...shift]]. */
  readonly geographic: Readonly<Record<string, readonly unknown[]>>;
  /** Rising codes, each as its distance from the one before: [code, text, area, geographic code]. */
  readonly projected: readonly (readonly number[])[];
}

const longLat = '+proj=longlat ';
const world: Area = [-180, -90, 180, 90];

const loading = new Map<() => Promise<{ default: unknown }>, Promise<CrsTable>>();

/** Loaded when a raster first needs it. */
function load(stored: () => Promise<{ default: unknown }>): Promise<CrsTable> {
  const loaded = loading.get(stored) ?? stored().then((made) => new CrsTable(made.default as Stored));
  loading.set(stored, loaded);
  return loaded;
}

const whole = () => import('./table.json');
const usual = () => import('./usual.json');

/** Every system. */
export const loadCrsTable = (): Promise<CrsTable> => load(whole);

/** Those in which most rasters come: loaded in a moment, where the whole table is large. */
export const loadUsualTable = (): Promise<CrsTable> => load(usual);

export class CrsTable {
  readonly #stored: Stored;
  readonly #projected = new Map<number, readonly number[]>();

  constructor(stored: Stored) {
    this.#stored = stored;
    let code = 0;
    for (const row of stored.projected) {
      code += row[0]!;
      this.#projected.set(code, row);
    }
  }

  /** Every code in the table, rising. */
  codes(): readonly number[] {
    return [...Object.keys(this.#stored.geographic).map(Number), ...this.#projected.keys()].sort(
      (a, b) => a - b,
    );
  }

  /** null: not known here. */
  find(epsg: number): TabledCrs | null {
    const geographic = this.#geographic(epsg);
    if (geographic !== null) return geographic.text.startsWith(longLat) ? geographic : null;
    const row = this.#projected.get(epsg);
    const base = row && this.#geographic(row[3]!);
    if (row === undefined || !base) return null;
    const own = this.#text(row[1]);
    // Body and meridian stand in the geographic system; a projection on another body brings its own.
    const text = own.includes('+a=') ? own : `${own} ${base.text.replace(longLat, '')}`;
    return { isGeographic: false, text, area: this.#area(row[2]), shifts: base.shifts };
  }

  /** Without `+proj=longlat` where it only serves as a base: its own coordinates are not in degrees, or were not compared. */
  #geographic(epsg: number): TabledCrs | null {
    const row = this.#stored.geographic[String(epsg)];
    if (row === undefined) return null;
    const [text, area, ...shifts] = row;
    return {
      isGeographic: true,
      text: this.#text(text),
      area: this.#area(area),
      shifts: (shifts as number[][]).map(([box, accuracyM = -1, offshore, ...parameters]) => ({
        area: this.#area(box),
        accuracyM,
        isOffshore: offshore === 1,
        parameters,
      })),
    };
  }

  #text(index: unknown): string {
    return this.#stored.texts[Number(index)]!;
  }

  #area(index: unknown): Area {
    return (this.#stored.areas[Number(index)] as Area | undefined) ?? world;
  }
}

/**
 * The shift PROJ would choose without grids at a place (its pj_get_suggested_operation): the first that covers it, unless a
 * later one ashore is more accurate. null: none covers it.
 */
export function shiftAt(shifts: readonly DatumShift[], lngDeg: number, latDeg: number): DatumShift | null {
  let best: DatumShift | null = null;
  for (const shift of shifts) {
    if (!isInside(shift.area, lngDeg, latDeg)) continue;
    const isBetter =
      !shift.isOffshore && shift.accuracyM >= 0 && shift.accuracyM < (best?.accuracyM ?? Infinity);
    if (best === null || isBetter) best = shift;
  }
  return best;
}

/** Whether a place lies in an area grown by a margin; longitudes across 180 degrees included. */
export function isInside(area: Area, lngDeg: number, latDeg: number, marginDeg = 0): boolean {
  const [west, south, east, north] = area;
  if (latDeg < south - marginDeg || latDeg > north + marginDeg) return false;
  const width = east >= west ? east - west : east - west + 360;
  const fromWest = (((lngDeg - west + marginDeg) % 360) + 360) % 360;
  return width + 2 * marginDeg >= 360 || fromWest <= width + 2 * marginDeg;
}
