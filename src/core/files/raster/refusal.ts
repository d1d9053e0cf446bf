import type { Problem, Question } from '../../domain/problem';
import { ProblemError } from '../../domain/raster';

/**
 * What can be wrong with a raster and what to do about it. Codes are stable: tests, logs and users' notes name them, so
 * they are never reused.
 */
const remedies = {
  'TIF-001': 'Load a GeoTIFF, an .hgt tile or an ESRI ASCII grid (.asc).',
  'TIF-002': 'The file is damaged. Get it again from its source.',
  'TIF-003': 'The file is cut off or damaged. Get it again from its source.',
  'TIF-004': 'The file is damaged. Get it again, or rewrite it: gdal_translate IN.tif OUT.tif',
  'TIF-005': 'Cut out the part you need: gdal_translate -projwin W N E S -co TILED=YES IN.tif OUT.tif',
  'TIF-006': 'Load the elevation model itself, not a picture made from it.',
  'TIF-007':
    'If these are elevations in whole metres, say so by rewriting them: gdal_translate -ot Int16 IN.tif OUT.tif',
  'TIF-008': 'Rewrite it without loss: gdal_translate -co COMPRESS=DEFLATE IN.tif OUT.tif',
  'TIF-009': 'Rewrite it: gdal_translate -ot Float32 -co COMPRESS=DEFLATE IN.tif OUT.tif',
  'TIF-010':
    'Get the file with its position (GeoTIFF tags), give its world file (.tfw) with it, or add it: gdal_translate -a_ullr W N E S -a_srs EPSG:n IN.tif OUT.tif',
  'TIF-011': 'Warp it first: gdalwarp -t_srs EPSG:n IN.tif OUT.tif',
  'TIF-012': 'Turn it north up first: gdalwarp IN.tif OUT.tif',
  'TIF-013': 'Say what marks missing cells: gdal_translate -a_nodata VALUE IN.tif OUT.tif',
  'TIF-014': 'Load a raster that holds elevations.',
  'TIF-015': 'The file is damaged. Get it again from its source.',
  'TIF-016': 'Set the scale and offset right: gdal_translate -a_scale S -a_offset O IN.tif OUT.tif',
  'TIF-017': 'Load heights that are positive upwards, not depths.',
  'TIF-018': 'Bring both into one file: gdal_translate --config GDAL_TIFF_INTERNAL_MASK YES IN.tif OUT.tif',
  'CRS-001': 'Say which coordinate system it is in.',
  'CRS-002': 'Bring it into one that is known, e.g. UTM: gdalwarp -t_srs EPSG:32632 IN.tif OUT.tif',
  'CRS-003': 'Check the coordinate system the file names, or say the right one by hand.',
  'CRS-004': 'Name it by its EPSG code, e.g. EPSG:32632.',
  'CRS-005':
    'Bring it into a known system: gdalwarp -t_srs EPSG:32632 IN.tif OUT.tif, or say the EPSG code by hand.',
  'UNIT-001': 'Say what the elevations are measured in.',
  'HGT-001': 'An .hgt tile has 1201 x 1201 or 3601 x 3601 whole numbers; get it again from its source.',
  'HGT-002': 'Name the tile by its south-west corner, e.g. N46E007.hgt.',
  'ASC-001': 'Check the first lines of the grid: ncols, nrows, xllcorner, yllcorner, cellsize.',
  'ASC-002': 'The file is damaged or cut off. Get it again from its source.',
  'SRC-001': 'Put the file back where it was, or load it again.',
  'SRC-002':
    'Download the raster and load it from disk, or ask its owner to answer range requests, and pages that ask (CORS: Access-Control-Allow-Origin; Range allowed, Content-Range and ETag exposed).',
  'SRC-003': 'Load the raster again: all of it must come from one version.',
  'SRC-004': 'Give its https address, or download the raster and load it from disk.',
} as const satisfies Record<string, string>;

export type RefusalCode = keyof typeof remedies;

/** A problem in the words of the catalogue. `title` says what was found and what was expected. */
export function refusal(
  code: RefusalCode,
  subject: string,
  place: string | null,
  title: string,
  more: { readonly remedy?: string; readonly kept?: string; readonly question?: Question } = {},
): Problem {
  return { code, subject, place, title, remedy: remedies[code], ...more };
}

/** Inside this folder a refusal travels as an exception to the one gate that turns it into a value. */
export function refuse(...args: Parameters<typeof refusal>): never {
  throw new ProblemError(refusal(...args));
}
