import { feature, featureCollection } from '@turf/turf';
import type { Geometry } from 'geojson';
import { unwrapped } from '../scene';
import type { MapLayer } from './map-layer';

const id = 'run-out';

/** Where a slide from the selected station would go, down the fall line and turned to each side. */
export const runOut: MapLayer = {
  id,
  parts: ({ traces }) => [traces],
  features: ({ traces }) =>
    featureCollection<Geometry>(
      traces.flatMap(({ path, ending }) => {
        const coordinates = unwrapped(path);
        const end = coordinates.at(-1);
        return coordinates.length < 2 || !end
          ? []
          : [
              feature({ type: 'LineString', coordinates }, { stops: ending === 'stops' }),
              feature({ type: 'Point', coordinates: end }, { stops: ending === 'stops', ending }),
            ];
      }),
    ),
  layers: ({ alarm, paper, ink }) => [
    {
      id: `${id}-halo`,
      source: id,
      type: 'line',
      filter: ['==', ['geometry-type'], 'LineString'],
      layout: { 'line-cap': 'round', 'line-join': 'round' },
      paint: { 'line-color': paper, 'line-width': 5, 'line-opacity': 0.8 },
    },
    {
      id: `${id}-stops`,
      source: id,
      type: 'line',
      filter: ['all', ['==', ['geometry-type'], 'LineString'], ['get', 'stops']],
      paint: { 'line-color': ink, 'line-width': 2, 'line-dasharray': [4, 2] },
    },
    {
      id: `${id}-goes-on`,
      source: id,
      type: 'line',
      filter: ['all', ['==', ['geometry-type'], 'LineString'], ['!', ['get', 'stops']]],
      paint: { 'line-color': alarm, 'line-width': 3 },
    },
    {
      id: `${id}-end`,
      source: id,
      type: 'circle',
      filter: ['==', ['geometry-type'], 'Point'],
      paint: {
        'circle-radius': 5,
        'circle-color': ['case', ['get', 'stops'], paper, alarm],
        'circle-stroke-color': ['case', ['get', 'stops'], ink, paper],
        'circle-stroke-width': 2,
      },
    },
  ],
};
