import { feature, featureCollection } from '@turf/turf';
import { drawnLine } from '../drawn-line';
import type { MapLayer } from './map-layer';

const id = 'alternatives';

/** The lines that are not the active one, thin beneath it. */
export const alternatives: MapLayer = {
  id,
  parts: ({ project }) => [project.alternatives],
  features: ({ project }) =>
    featureCollection(
      project.alternatives
        .filter(({ points }) => points.length > 1)
        .map((line) =>
          feature(
            { type: 'LineString', coordinates: drawnLine(line.points.map(({ position }) => position)) },
            { id: line.id },
          ),
        ),
    ),
  layers: ({ ink, paper }) => [
    {
      id: `${id}-halo`,
      source: id,
      type: 'line',
      paint: { 'line-color': paper, 'line-width': 4, 'line-opacity': 0.7 },
    },
    {
      id: `${id}-line`,
      source: id,
      type: 'line',
      paint: { 'line-color': ink, 'line-width': 1.5, 'line-dasharray': [6, 2, 1, 2] },
    },
  ],
};
