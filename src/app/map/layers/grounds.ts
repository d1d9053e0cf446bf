import { feature, featureCollection } from '@turf/turf';
import { unwrapped } from '../scene';
import type { MapLayer } from './map-layer';

const id = 'grounds';

/** Where the opened rasters end: beyond it nothing is known. */
export const grounds: MapLayer = {
  id,
  parts: ({ grounds: open }) => [open],
  features: ({ grounds: open }) =>
    featureCollection(
      open.map(({ outline, key }) =>
        feature({ type: 'LineString', coordinates: unwrapped(outline) }, { key }),
      ),
    ),
  layers: ({ edge }) => [
    {
      id: `${id}-edge`,
      source: id,
      type: 'line',
      paint: { 'line-color': edge, 'line-width': 1.5, 'line-dasharray': [2, 2] },
    },
  ],
};
