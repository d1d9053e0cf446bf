import { feature, featureCollection } from '@turf/turf';
import type { ExpressionSpecification } from 'maplibre-gl';
import { modes } from '../../../core/domain/mode';
import { drawnLine } from '../drawn-line';
import { modeStrip, stripName } from '../mode-strip';
import { stationsBetween } from '../stations';
import type { MapLayer } from './map-layer';

const id = 'segments';

/** A value by the feature's mode. */
const byMode = <T extends number | string>(
  value: (mode: (typeof modes)[number]) => T,
): ExpressionSpecification =>
  [
    'match',
    ['get', 'mode'],
    ...modes.flatMap((mode) => [mode, value(mode)]),
    value('no-data'),
  ] as unknown as ExpressionSpecification;

/** The line, one feature per segment, styled by its mode. */
export const segments: MapLayer = {
  id,
  parts: ({ plan, selectedId }) => [plan, selectedId],
  features({ plan, selectedId }) {
    if (!plan) return featureCollection([]);
    const startDeg = plan.stations[0]?.position[0] ?? 0;
    return featureCollection(
      plan.segments.map((segment) => {
        const places = stationsBetween(plan.stations, segment.fromM, segment.toM);
        return feature(
          {
            type: 'LineString',
            coordinates: drawnLine(
              places.map(({ position }) => position),
              startDeg,
            ),
          },
          { id: segment.id, mode: segment.mode, selected: segment.id === selectedId },
        );
      }),
    );
  },
  layers: ({ paper, wash, edge }) => [
    {
      id: `${id}-selected-rim`,
      source: id,
      type: 'line',
      filter: ['get', 'selected'],
      layout: { 'line-cap': 'round', 'line-join': 'round' },
      paint: { 'line-color': edge, 'line-width': 26 },
    },
    {
      id: `${id}-selected`,
      source: id,
      type: 'line',
      filter: ['get', 'selected'],
      layout: { 'line-cap': 'round', 'line-join': 'round' },
      paint: { 'line-color': wash, 'line-width': 23 },
    },
    {
      id: `${id}-halo`,
      source: id,
      type: 'line',
      layout: { 'line-cap': 'round', 'line-join': 'round' },
      paint: {
        'line-color': paper,
        'line-opacity': 0.75,
        'line-width': byMode((mode) => modeStrip[mode].widthPx + 3),
      },
    },
    {
      id: `${id}-strip`,
      source: id,
      type: 'line',
      layout: { 'line-join': 'round' },
      paint: { 'line-pattern': byMode(stripName), 'line-width': byMode((mode) => modeStrip[mode].widthPx) },
    },
  ],
};
