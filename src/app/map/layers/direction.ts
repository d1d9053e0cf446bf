import { feature, featureCollection } from '@turf/turf';
import type { Geometry } from 'geojson';
import { drawnLine } from '../drawn-line';
import type { MapLayer } from './map-layer';

const id = 'direction';

/** Which way the team goes: its start, its end, and arrows between. Also the line as drawn while there is no plan yet. */
export const direction: MapLayer = {
  id,
  parts: ({ project, plan }) => [project.line.points, plan === null],
  features({ project, plan }) {
    const coordinates = drawnLine(project.line.points.map(({ position }) => position));
    const [start, end] = [coordinates[0], coordinates.at(-1)];
    if (!start || !end || coordinates.length < 2) return featureCollection<Geometry>([]);
    return featureCollection<Geometry>([
      feature({ type: 'LineString', coordinates }, { planned: plan !== null }),
      feature({ type: 'Point', coordinates: start }, { end: false }),
      feature({ type: 'Point', coordinates: end }, { end: true }),
    ]);
  },
  layers: ({ ink, paper }) => [
    {
      id: `${id}-unplanned`,
      source: id,
      type: 'line',
      filter: ['all', ['==', ['geometry-type'], 'LineString'], ['!', ['get', 'planned']]],
      paint: { 'line-color': ink, 'line-width': 2 },
    },
    {
      id: `${id}-arrows`,
      source: id,
      type: 'symbol',
      filter: ['==', ['geometry-type'], 'LineString'],
      layout: {
        'symbol-placement': 'line',
        'symbol-spacing': 110,
        'icon-image': 'arrow',
        'icon-rotation-alignment': 'map',
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
      },
    },
    {
      id: `${id}-ends`,
      source: id,
      type: 'circle',
      filter: ['==', ['geometry-type'], 'Point'],
      paint: {
        'circle-radius': ['case', ['get', 'end'], 6, 7],
        'circle-color': ['case', ['get', 'end'], ink, paper],
        'circle-stroke-color': ['case', ['get', 'end'], paper, ink],
        'circle-stroke-width': ['case', ['get', 'end'], 2.5, 3.5],
      },
    },
  ],
};
