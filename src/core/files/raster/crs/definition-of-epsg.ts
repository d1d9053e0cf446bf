import { longLatWgs84, type CrsDefinition } from './frame';

/** A system by its EPSG code; null when it is not known here. */
export function definitionOfEpsg(epsg: number): Promise<CrsDefinition | null> {
  const named = { name: `EPSG:${epsg}`, epsg, area: null };
  if (epsg === 4326)
    return Promise.resolve({ ...named, isGeographic: true, proj4: longLatWgs84, unitM: null });
  if (epsg === 4258 || epsg === 4269)
    return Promise.resolve({
      ...named,
      isGeographic: true,
      proj4: '+proj=longlat +ellps=GRS80 +towgs84=0,0,0 +no_defs',
      unitM: null,
    });
  const national = nationalGrids[epsg];
  if (national !== undefined)
    return Promise.resolve({ ...named, isGeographic: false, proj4: national[0], unitM: national[1] });
  const zone = epsg % 100;
  const utm = (rest: string) =>
    Promise.resolve({
      ...named,
      isGeographic: false,
      proj4: `+proj=utm +zone=${zone} ${rest} +units=m +no_defs`,
      unitM: 1,
    });
  if (epsg > 32600 && epsg <= 32660) return utm('+datum=WGS84');
  if (epsg > 32700 && epsg <= 32760) return utm('+south +datum=WGS84');
  if (epsg >= 25828 && epsg <= 25838) return utm('+ellps=GRS80 +towgs84=0,0,0');
  if (epsg >= 26901 && epsg <= 26923) return utm('+ellps=GRS80 +towgs84=0,0,0');
  return Promise.resolve(null);
}

const nationalGrids: Readonly<Record<number, readonly [string, number]>> = {
  2056: [
    '+proj=somerc +lat_0=46.9524055555556 +lon_0=7.43958333333333 +k_0=1 +x_0=2600000 +y_0=1200000 +ellps=bessel +towgs84=674.374,15.056,405.346,0,0,0,0 +units=m +no_defs',
    1,
  ],
  2193: [
    '+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +x_0=1600000 +y_0=10000000 +ellps=GRS80 +towgs84=0,0,0 +units=m +no_defs',
    1,
  ],
  3005: [
    '+proj=aea +lat_0=45 +lon_0=-126 +lat_1=50 +lat_2=58.5 +x_0=1000000 +y_0=0 +ellps=GRS80 +towgs84=0,0,0 +units=m +no_defs',
    1,
  ],
  3031: ['+proj=stere +lat_0=-90 +lat_ts=-71 +lon_0=0 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs', 1],
  3035: [
    '+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000 +ellps=GRS80 +towgs84=0,0,0 +units=m +no_defs',
    1,
  ],
  3857: [
    '+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +units=m +nadgrids=@null +wktext +no_defs',
    1,
  ],
  6418: [
    '+proj=lcc +lat_0=37.6666666666667 +lon_0=-122 +lat_1=39.8333333333333 +lat_2=38.3333333333333 +x_0=2000000.0001016 +y_0=500000.0001016 +ellps=GRS80 +towgs84=0,0,0 +units=us-ft +no_defs',
    1200 / 3937,
  ],
};
