import type { HeightsFrom } from '../../domain/raster';
import type { CellMeaning } from './cell-meaning';
import type { CrsDefinition } from './crs/frame';
import type { ElevationUnit, StatedUnit } from './elevation-unit';
import { metresPer } from './elevation-unit';
import { groundCellM, type PlacedCells } from './ground-cell';
import type { RasterNotes } from './raster-notes';
import { refuse } from './refusal';
import { rank, type Survey } from './survey';
import { unitDoubt, unitQuestion } from './unit-question';

export interface Weighed {
  readonly grid: PlacedCells & { readonly name: string };
  readonly crs: CrsDefinition;
  readonly survey: Survey;
  readonly meaning: CellMeaning;
  readonly stated: StatedUnit | null;
  readonly heightsFrom: HeightsFrom;
  readonly chosen: ElevationUnit | undefined;
  /** The file stores whole numbers. */
  readonly isWholeCells: boolean;
}

/** Cells finer than this with whole-metre heights give stepped slopes; coarser than that, short steeps are flattened. Judgement. */
const finerThanM = 10;
const coarserThanM = 25;

/** What no usual file tells of its heights, and maps and meadows do. */
const unsaid = 'what they are counted from, nor whether trees and roofs are part of them.';

/** Judges what a look at the cells showed: refuses what holds no elevations, asks for the unit, notes what is odd. */
export function weigh(weighed: Weighed, notes: RasterNotes): void {
  const { grid, crs, survey, meaning, stated, heightsFrom, chosen, isWholeCells } = weighed;
  if (survey.isWhole && survey.missing === survey.cells)
    refuse('TIF-014', grid.name, null, 'contains no elevation: every cell is missing');
  notes.unsaid({ sentinels: survey.sentinels, implausible: 0 });
  const [lngDeg, latDeg] = grid.frame.toLngLat([
    grid.affine.x0 + (grid.widthPx / 2) * grid.affine.colX,
    grid.affine.y0 + (grid.heightPx / 2) * grid.affine.rowY,
  ]);
  const isUnitSilent = chosen === undefined && stated === null && survey.sorted.length > 0;
  if (isUnitSilent) {
    const doubt = unitDoubt({ survey, mapUnitM: crs.unitM, lngDeg, latDeg });
    if (doubt !== null)
      refuse('UNIT-001', grid.name, 'elevations', doubt, {
        question: unitQuestion,
        remedy: 'Say what they are measured in.',
      });
    notes.add(
      'UNIT-101',
      `The file does not say in what its elevations are measured: taken as metres.${heightsFrom === null ? ` Nor ${unsaid}` : ''}`,
    );
  }
  if (chosen !== undefined && stated !== null && Math.abs(metresPer[chosen] / stated.metres - 1) > 1e-5)
    notes.add('UNIT-102', `The unit said by hand (${chosen}) goes before the file's own (${stated.where}).`);
  if (heightsFrom === 'ellipsoid')
    notes.add(
      'UNIT-104',
      'Heights are counted from the ellipsoid: up to 100 m off those of maps. Slopes are not touched.',
    );
  if (heightsFrom === null && !isUnitSilent) notes.add('UNIT-103', `The file does not say ${unsaid}`);

  const cellM = groundCellM(grid);
  const isSingle = survey.sorted.length > 0 && rank(survey, 0) === rank(survey, 1);
  if (isSingle) notes.add('TIF-107', 'All cells looked at have the same elevation.');
  const isWholeMetres = survey.isWholeNumbers && (isWholeCells || meaning.metresPerUnit === 1);
  if (cellM < finerThanM && isWholeMetres && meaning.metresPerUnit >= 0.3 && !isSingle)
    notes.add('TIF-108', `Whole-metre heights on cells of ${cellM.toFixed(1)} m: slopes come in steps.`);
  if (cellM >= coarserThanM)
    notes.add('TIF-109', `Each cell averages ${cellM.toFixed(0)} m: short steep parts are flattened.`);
  if (crs.epsg === 3857)
    notes.add(
      'TIF-110',
      `Web Mercator: a cell is ${cellM.toFixed(2)} m on the ground, ${grid.affine.colX.toFixed(2)} on the map.`,
    );
}
