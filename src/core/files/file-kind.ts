/** What a file is, by what is in it and not by its name. */
export type FileKind =
  | 'gpx'
  | 'kml'
  | 'json'
  | 'empty'
  | 'web page'
  | 'TCX'
  | 'FIT'
  | 'ZIP archive'
  | 'gzip archive'
  | 'PNG picture'
  | 'JPEG picture'
  | 'TIFF raster'
  | 'PDF'
  | 'other XML'
  | 'unknown';

const signatures: readonly (readonly [FileKind, number, readonly number[]])[] = [
  ['FIT', 8, [0x2e, 0x46, 0x49, 0x54]],
  ['ZIP archive', 0, [0x50, 0x4b, 0x03, 0x04]],
  ['gzip archive', 0, [0x1f, 0x8b]],
  ['PNG picture', 0, [0x89, 0x50, 0x4e, 0x47]],
  ['JPEG picture', 0, [0xff, 0xd8, 0xff]],
  ['TIFF raster', 0, [0x49, 0x49, 0x2a, 0]],
  ['TIFF raster', 0, [0x4d, 0x4d, 0, 0x2a]],
  ['TIFF raster', 0, [0x49, 0x49, 0x2b, 0]],
  ['PDF', 0, [0x25, 0x50, 0x44, 0x46]],
];

/** By the first bytes of kinds that are no text. */
export function binaryKind(bytes: Uint8Array): FileKind | null {
  const found = signatures.find(([, offset, magic]) => magic.every((byte, i) => bytes[offset + i] === byte));
  return found?.[0] ?? null;
}

const roots: Readonly<Record<string, FileKind>> = {
  gpx: 'gpx',
  kml: 'kml',
  TrainingCenterDatabase: 'TCX',
  html: 'web page',
};

/** By the first element or bracket of a text. */
export function textKind(text: string): FileKind {
  const start = text.slice(0, 10_000).trimStart();
  if (start === '') return 'empty';
  if (start.startsWith('{') || start.startsWith('[')) return 'json';
  if (/^<!doctype\s+html/i.test(start)) return 'web page';
  if (!start.startsWith('<')) return 'unknown';
  const bare = start.replaceAll(/<\?[^]*?\?>|<!--[^]*?-->/g, '');
  const root = /<(?:[A-Za-z_][\w.-]*:)?([A-Za-z_][\w.-]*)/.exec(bare)?.[1];
  if (root === undefined) return 'other XML';
  return roots[root] ?? (/^(html|head|body)$/i.test(root) ? 'web page' : 'other XML');
}

export const isProjectName = (fileName: string): boolean => /\.firnward\.json$/i.test(fileName);

/** Until the content is known, a file's problems go by its name. */
export function lettersOf(fileName: string): 'GPX' | 'KML' | 'GEO' | 'PRJ' | 'CSV' {
  if (isProjectName(fileName)) return 'PRJ';
  if (/\.csv$/i.test(fileName)) return 'CSV';
  if (/\.kml$/i.test(fileName)) return 'KML';
  return /\.(geo)?json$/i.test(fileName) ? 'GEO' : 'GPX';
}
