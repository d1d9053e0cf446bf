import { feature, featureCollection } from '@turf/turf';
import type { Geometry } from 'geojson';
import { hazardKinds, markName } from '../../../core/domain/mark';
import { unwrapped } from '../scene';
import type { MapLayer } from './map-layer';

const id = 'marks';

/** What people saw: a symbol at each mark, its drawn extent, and its name from a zoom on. */
export const marks: MapLayer = {
  id,
  parts: ({ project }) => [project.marks],
  features: ({ project }) =>
    featureCollection<Geometry>(
      project.marks.flatMap((mark) => {
        const coordinates = unwrapped(mark.positions, project.line.points[0]?.position[0]);
        const at = coordinates[Math.floor((coordinates.length - 1) / 2)];
        if (!at) return [];
        const extent: Geometry | null = coordinates.length > 1 ? { type: 'LineString', coordinates } : null;
        const properties = {
          id: mark.id,
          kind: mark.kind,
          name: markName[mark.kind],
          hazard: hazardKinds.has(mark.kind),
        };
        return [
          ...(extent ? [feature(extent, properties)] : []),
          feature({ type: 'Point', coordinates: at }, properties),
        ];
      }),
    ),
  layers: ({ ink, paper, alarm }) => [
    {
      id: `${id}-extent-halo`,
      source: id,
      type: 'line',
      filter: ['==', ['geometry-type'], 'LineString'],
      layout: { 'line-cap': 'round' },
      paint: { 'line-color': paper, 'line-width': 6, 'line-opacity': 0.8 },
    },
    {
      id: `${id}-extent`,
      source: id,
      type: 'line',
      filter: ['==', ['geometry-type'], 'LineString'],
      paint: {
        'line-color': ['case', ['get', 'hazard'], alarm, ink],
        'line-width': 2.5,
        'line-dasharray': [3, 1],
      },
    },
    {
      id: `${id}-symbols`,
      source: id,
      type: 'symbol',
      filter: ['==', ['geometry-type'], 'Point'],
      layout: {
        'icon-image': ['concat', 'mark-', ['get', 'kind']],
        'icon-allow-overlap': true,
        'text-field': ['step', ['zoom'], '', 14.5, ['get', 'name']],
        'text-font': ['sans-serif'],
        'text-size': 12,
        'text-optional': true,
        'text-variable-anchor': ['right', 'left', 'bottom', 'top'],
        'text-radial-offset': 1.2,
      },
      paint: { 'text-color': ink, 'text-halo-color': paper, 'text-halo-width': 1.8 },
    },
  ],
};
