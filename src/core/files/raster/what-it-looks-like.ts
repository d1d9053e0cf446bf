/** First bytes, as Latin-1 text, of kinds of file that people take for rasters. */
const beginnings: readonly (readonly [start: string, name: string])[] = [
  ['\x89PNG', 'a PNG picture'],
  ['\xff\xd8\xff', 'a JPEG picture'],
  ['GIF8', 'a GIF picture'],
  ['RIFF', 'a WebP picture or a sound'],
  ['\0\0\0\x0cjP', 'a JPEG 2000 picture'],
  ['\xff\x4f\xff\x51', 'a JPEG 2000 picture'],
  ['PK\x03\x04', 'a ZIP archive: unpack it first'],
  ['\x1f\x8b', 'a gzip archive: unpack it first'],
  ['7z\xbc\xaf', 'an archive: unpack it first'],
  ['Rar!', 'an archive: unpack it first'],
  ['\x89HDF', 'an HDF5 or netCDF file'],
  ['CDF', 'a netCDF file'],
  ['%PDF', 'a PDF'],
  ['SQLite format 3', 'a GeoPackage or another database'],
  ['LASF', 'a point cloud (LAS)'],
  ['GRIB', 'a GRIB file'],
];

const texts: readonly (readonly [pattern: RegExp, name: string])[] = [
  [/^<(!doctype html|html)/i, 'a web page'],
  [/^<gpx/i, 'a track (GPX)'],
  [/^<\?xml/i, 'an XML file, perhaps a track'],
  [/^[{[]/, 'a JSON file'],
  [/^[\s -~\x80-\xff]+$/, 'text'],
];

export function whatItLooksLike(head: string): string {
  const binary = beginnings.find(([start]) => head.startsWith(start));
  if (binary !== undefined) return binary[1];
  const text = head.replace('\xef\xbb\xbf', '').trimStart();
  return texts.find(([pattern]) => pattern.test(text))?.[1] ?? 'nothing known here';
}
