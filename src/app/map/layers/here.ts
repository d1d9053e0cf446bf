import { feature, featureCollection } from '@turf/turf';
import type { MapLayer } from './map-layer';

const id = 'here';

/** Where this device says it is. */
export const here: MapLayer = {
  id,
  parts: ({ here: at }) => [at],
  features: ({ here: at }) =>
    featureCollection(at ? [feature({ type: 'Point', coordinates: [at[0], at[1]] })] : []),
  layers: ({ ink, paper }) => [
    {
      id: `${id}-ring`,
      source: id,
      type: 'circle',
      paint: {
        'circle-radius': 11,
        'circle-color': paper,
        'circle-opacity': 0.6,
        'circle-stroke-color': ink,
        'circle-stroke-width': 3,
      },
    },
    { id: `${id}-dot`, source: id, type: 'circle', paint: { 'circle-radius': 4, 'circle-color': ink } },
  ],
};
