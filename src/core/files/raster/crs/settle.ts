import type { Affine } from '../../../domain/raster';
import type { RasterNotes } from '../raster-notes';
import { refuse } from '../refusal';
import { makeFrame, type CrsDefinition } from './frame';
import type { CrsSystem } from './system';
import { isInside, shiftAt } from './table';

export interface PlacedGrid {
  readonly name: string;
  readonly affine: Affine;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Beyond its area of use a projection is still right for a while; national sets do that. Judgement. */
const noteBeyondDeg = 1;
const refuseBeyondDeg = 14;

/**
 * Chooses the datum shift for where the raster lies, as PROJ does without grids, after checking that the numbers can be
 * in this system at all.
 */
export function settle(system: CrsSystem, grid: PlacedGrid, notes: RasterNotes): CrsDefinition {
  const { name, affine, widthPx, heightPx } = grid;
  const east = affine.x0 + widthPx * affine.colX;
  const south = affine.y0 + heightPx * affine.rowY;
  const extent = `${short(affine.x0)} to ${short(east)}, ${short(south)} to ${short(affine.y0)}`;
  const outermostX = Math.max(Math.abs(affine.x0), Math.abs(east));
  const outermostY = Math.max(Math.abs(south), Math.abs(affine.y0));
  if (system.isGeographic && (outermostX > 540 || outermostY > 90.01))
    refuse('CRS-003', name, system.name, `the extent ${extent} cannot be degrees`);
  const cell = Math.min(affine.colX, -affine.rowY);
  if (!system.isGeographic && outermostX <= 540 && outermostY <= 90 && cell < 0.02)
    refuse(
      'CRS-003',
      name,
      system.name,
      `the extent ${extent} cannot be metres or feet: it looks like degrees`,
    );

  const { unitM, epsg, isGeographic, text } = system;
  const unsettled = { name: system.name, epsg, isGeographic, text, unitM, shift: [] };
  const centre = [(affine.x0 + east) / 2, (affine.y0 + south) / 2] as const;
  const [lngDeg, latDeg] = makeFrame(unsettled, isGeographic ? centre[0] : 0).toLngLat(centre);
  if (!Number.isFinite(lngDeg) || !Number.isFinite(latDeg))
    refuse('CRS-003', name, system.name, `the extent ${extent} lies outside what the projection can show`);
  const where = `${Math.abs(latDeg).toFixed(2)}° ${latDeg < 0 ? 'S' : 'N'} ${Math.abs(lngDeg).toFixed(2)}° ${lngDeg < 0 ? 'W' : 'E'}`;
  if (system.area !== null && !isInside(system.area, lngDeg, latDeg, refuseBeyondDeg))
    refuse(
      'CRS-003',
      name,
      system.name,
      `puts the raster at ${where}, far outside where that system is used`,
    );
  if (system.area !== null && !isInside(system.area, lngDeg, latDeg, noteBeyondDeg))
    notes.add(
      'CRS-101',
      `The raster lies at ${where}, outside the area for which ${system.name} is meant: check its place.`,
    );
  const shift = shiftAt(system.shifts, lngDeg, latDeg);
  if (shift === null)
    refuse('CRS-005', name, system.name, `no way to WGS 84 is known here for that system at ${where}`);
  return { ...unsettled, shift: shift.parameters };
}

const short = (n: number) => String(Math.round(n * 1e4) / 1e4);
