import type {
  LayerSpecification,
  RasterDEMSourceSpecification,
  RasterSourceSpecification,
  StyleSpecification,
} from 'maplibre-gl';
import type { Theme } from '../look/themes';
import type { Ground } from './scene';

/** Where the map's tiles come from: made in our own worker, by the custom protocols of the same names. */
export const tileProtocols = ['relief', 'slope', 'contours', 'terrain'] as const;
export type TileProtocol = (typeof tileProtocols)[number];

export interface BaseLook {
  readonly slopeTint: boolean;
  readonly contours: boolean;
  /** Seen aslant, with heights. For the eye only. */
  readonly hills: boolean;
}

const nowhere: [number, number, number, number] = [-180, -85.0511, 180, 85.0511];

/** Bounds of all grounds, [west, south, east, north]; the whole map where there are none. */
export function boundsOf(grounds: readonly Ground[]): [number, number, number, number] {
  const first = grounds[0];
  if (!first) return nowhere;
  return grounds.reduce<[number, number, number, number]>(
    ([west, south, east, north], ground) => [
      Math.min(west, ground.west),
      Math.min(south, ground.south),
      Math.max(east, ground.east),
      Math.max(north, ground.north),
    ],
    [first.west, first.south, first.east, first.north],
  );
}

/** Zoom at which one pixel of a 256-pixel tile is one cell of the finest raster. */
export function finestZoom(grounds: readonly Ground[]): number {
  const zooms = grounds.map(({ cellM, south, north }) => {
    const midLat = (((south + north) / 2) * Math.PI) / 180;
    return Math.ceil(Math.log2((40_075_017 * Math.cos(midLat)) / 256 / cellM));
  });
  return Math.min(18, Math.max(4, ...zooms));
}

/** The tiles of one protocol; `version` changes with the rasters, so that old tiles are not shown for new ground. */
export const tileUrl = (protocol: TileProtocol, version: number): string =>
  `${protocol}://${version}/{z}/{x}/{y}`;

/** Large: each picture costs the map a drawing of its own in every frame. */
const pictureSidePx = 512;

const rasterSource = (
  protocol: TileProtocol,
  version: number,
  grounds: readonly Ground[],
): RasterSourceSpecification => ({
  type: 'raster',
  tiles: [tileUrl(protocol, version)],
  tileSize: pictureSidePx,
  bounds: boundsOf(grounds),
  maxzoom: finestZoom(grounds) - 1,
});

/** Heights for the view aslant. */
export const hillSource = (version: number, grounds: readonly Ground[]): RasterDEMSourceSpecification => ({
  ...rasterSource('terrain', version, grounds),
  type: 'raster-dem',
  tileSize: 256,
  maxzoom: finestZoom(grounds),
  encoding: 'terrarium',
});

export function baseSources(version: number, grounds: readonly Ground[]): StyleSpecification['sources'] {
  return {
    relief: rasterSource('relief', version, grounds),
    slope: rasterSource('slope', version, grounds),
    contours: {
      type: 'vector',
      tiles: [tileUrl('contours', version)],
      bounds: boundsOf(grounds),
      maxzoom: finestZoom(grounds) - 1,
    },
  };
}

export function baseLayers({ paper, ink }: Theme, look: BaseLook): LayerSpecification[] {
  const shown = (on: boolean) => (on ? 'visible' : 'none');
  return [
    { id: 'paper', type: 'background', paint: { 'background-color': paper } },
    {
      id: 'relief',
      source: 'relief',
      type: 'raster',
      paint: { 'raster-fade-duration': 0 },
    },
    {
      id: 'slope',
      source: 'slope',
      type: 'raster',
      layout: { visibility: shown(look.slopeTint) },
      paint: { 'raster-fade-duration': 0, 'raster-opacity': 0.6 },
    },
    {
      id: 'contours',
      source: 'contours',
      'source-layer': 'contours',
      type: 'line',
      layout: { visibility: shown(look.contours) },
      paint: {
        'line-color': ink,
        'line-opacity': ['match', ['get', 'level'], 1, 0.5, 0.26],
        'line-width': ['match', ['get', 'level'], 1, 1.1, 0.6],
      },
    },
    {
      id: 'contour-labels',
      source: 'contours',
      'source-layer': 'contours',
      type: 'symbol',
      filter: ['==', ['get', 'level'], 1],
      layout: {
        visibility: shown(look.contours),
        'symbol-placement': 'line',
        'symbol-spacing': 260,
        'text-field': ['to-string', ['get', 'ele']],
        'text-font': ['sans-serif'],
        'text-size': 10.5,
      },
      paint: { 'text-color': ink, 'text-halo-color': paper, 'text-halo-width': 1.5 },
    },
  ];
}
