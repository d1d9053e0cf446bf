import { feature, featureCollection } from '@turf/turf';
import { stationsBetween } from '../stations';
import { unwrapped } from '../scene';
import type { MapLayer } from './map-layer';

const id = 'stretch';

/** The stretch that is being set, beside the line. */
export const stretch: MapLayer = {
  id,
  parts: ({ plan, stretch: set }) => [plan, set?.[0], set?.[1]],
  features({ plan, stretch: set }) {
    if (!plan || !set) return featureCollection([]);
    const places = stationsBetween(plan.stations, set[0], set[1]).map(({ position }) => position);
    const coordinates = unwrapped(places, plan.stations[0]?.position[0]);
    return featureCollection(coordinates.length > 1 ? [feature({ type: 'LineString', coordinates })] : []);
  },
  layers: ({ ink, wash }) => [
    { id: `${id}-wash`, source: id, type: 'line', paint: { 'line-color': wash, 'line-width': 22 } },
    ...[-12, 12].map((offset) => ({
      id: `${id}-edge${offset}`,
      source: id,
      type: 'line' as const,
      paint: { 'line-color': ink, 'line-width': 2, 'line-offset': offset, 'line-dasharray': [3, 2] },
    })),
  ],
};
