import { feature, featureCollection } from '@turf/turf';
import { drawnLine } from '../drawn-line';
import type { MapLayer } from './map-layer';

const id = 'preview';

/** How the line would run after what is being tried. */
export const preview: MapLayer = {
  id,
  parts: ({ preview: tried }) => [tried],
  features: ({ preview: tried }) =>
    featureCollection(
      tried && tried.length > 1 ? [feature({ type: 'LineString', coordinates: drawnLine(tried) })] : [],
    ),
  layers: ({ ink, paper }) => [
    { id: `${id}-halo`, source: id, type: 'line', paint: { 'line-color': paper, 'line-width': 5 } },
    {
      id: `${id}-line`,
      source: id,
      type: 'line',
      paint: { 'line-color': ink, 'line-width': 2, 'line-dasharray': [2, 1.5] },
    },
  ],
};
