import { sep } from 'node:path';

/**
 * The coordinate systems that proj4 knows by name: WGS 84 alone. Everywhere else it reads the texts of 123 more whenever it is loaded, a
 * fiftieth of a short job; we ask for them by their texts only.
 */
export default function names(defs) {
  defs('EPSG:4326', '+proj=longlat +ellps=WGS84 +datum=WGS84 +units=degrees');
  defs.WGS84 = defs['EPSG:4326'];
}

/** A Vite plugin for the command line: puts these names in the place of proj4's. */
export const fewNames = () => ({
  name: 'few-names',
  enforce: 'pre',
  resolveId: (source, importer) =>
    source === './global' && importer?.endsWith(['', 'proj4', 'lib', 'defs.js'].join(sep))
      ? import.meta.filename
      : null,
});
