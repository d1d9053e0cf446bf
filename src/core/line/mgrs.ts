import type { LngLat } from '../domain/coordinates';
import { bandOf, fromUtm, isNorthBand, toUtm, zoneOf } from './utm';

/** Figures each for easting and northing: 5 is one metre, none is the square of 100 km. */
export type MgrsFigures = 0 | 1 | 2 | 3 | 4 | 5;

const squareM = 100_000;
/** Row letters run through every 2000 km. */
const rowCycleM = 2_000_000;
const rows = 'ABCDEFGHJKLMNPQRSTUV';
/** Column letters from easting 100 km on, by the zone's place in a set of three. */
const columns = ['STUVWXYZ', 'ABCDEFGH', 'JKLMNPQR'];

const columnsOf = (zone: number): string => columns[zone % 3]!;
/** Even zones begin five rows later. */
const firstRow = (zone: number): number => (zone % 2 === 0 ? 5 : 0);

/**
 * The grid square that holds a position, e.g. `32TLR 34200 77664`; null beyond 80 south and 84 north. Figures are cut off,
 * never rounded.
 * @source NGA.STND.0037, Universal Grids and Grid Reference Systems; FGDC-STD-011-2001, 3.2.3.
 */
export function toMgrs(position: LngLat, figures: MgrsFigures = 5): string | null {
  const place = toUtm(position);
  if (place === null) return null;
  const { zone, band, eastingM, northingM } = place;
  const column = columnsOf(zone)[Math.floor(eastingM / squareM) - 1]!;
  const row = rows[(Math.floor(northingM / squareM) + firstRow(zone)) % rows.length]!;
  const square = `${zone}${band}${column}${row}`;
  if (figures === 0) return square;
  const cut = (metres: number) =>
    String(Math.floor(metres % squareM))
      .padStart(5, '0')
      .slice(0, figures);
  return `${square} ${cut(eastingM)} ${cut(northingM)}`;
}

/** The middle of the square that a reference names; null where the text is none, or names a square that is not there. */
export function fromMgrs(text: string): LngLat | null {
  const bare = text.replaceAll(/\s+/g, '').toUpperCase();
  const [, zoneText, band = '', column = '', row = '', digits = ''] =
    /^(\d{1,2})([C-HJ-NP-X])([A-HJ-NP-Z])([A-HJ-NP-V])(\d*)$/.exec(bare) ?? [];
  const zone = Number(zoneText);
  const columnIndex = zone >= 1 && zone <= 60 ? columnsOf(zone).indexOf(column) : -1;
  if (columnIndex < 0 || digits.length % 2 !== 0 || digits.length > 10) return null;

  const figures = digits.length / 2;
  const cellM = squareM / 10 ** figures;
  const eastingM = (columnIndex + 1) * squareM + Number(digits.slice(0, figures)) * cellM;
  const rowIndex = (rows.indexOf(row) - firstRow(zone) + rows.length) % rows.length;
  const inCycleM = rowIndex * squareM + Number(digits.slice(figures)) * cellM;
  for (let northingM = inCycleM; northingM < 10_000_000; northingM += rowCycleM) {
    const at = (right: number, up: number) =>
      fromUtm({
        zone,
        isNorth: isNorthBand(band),
        eastingM: eastingM + right * cellM,
        northingM: northingM + up * cellM,
      });
    const isThere = inside.some(([right, up]) => {
      const place = at(right, up);
      return bandOf(place[1]) === band && zoneOf(place) === zone;
    });
    if (isThere) return at(0.5, 0.5);
  }
  return null;
}

/** Where in a square it is asked for its zone and band: squares at their edges belong to them in part. */
const inside = [0.001, 0.25, 0.5, 0.75, 0.999].flatMap((right) =>
  [0.001, 0.25, 0.5, 0.75, 0.999].map((up) => [right, up] as const),
);
