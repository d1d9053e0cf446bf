import { feature, featureCollection } from '@turf/turf';
import { modeCode } from '../../../core/sheet/mode-pattern';
import type { Plan, Segment } from '../../../core/domain/segment';
import { mercator } from '../hit';
import { placeAt } from '../stations';
import { unwrapped } from '../scene';
import type { MapLayer } from './map-layer';

const id = 'on-line';
const piecesFromZoom = 15.2;

/** Where a segment's label stands: beside the middle of the segment, square to the way the line goes there. */
function labelPlace(plan: Plan, { fromM, toM }: Segment) {
  const middleM = (fromM + toM) / 2;
  const position = placeAt(plan.stations, middleM);
  const [before, after] = [placeAt(plan.stations, middleM - 40), placeAt(plan.stations, middleM + 40)];
  if (!position || !before || !after) return null;
  const [x0, y0] = mercator(before);
  const [x1, y1] = mercator(after);
  const isUpright = Math.abs(y1 - y0) > Math.abs(x1 - x0);
  return {
    position,
    beside: isUpright ? { anchor: 'left', offset: [1.1, 0] } : { anchor: 'bottom', offset: [0, -1.1] },
  };
}

/** Pieces, gathering places and stances where they would be set: drawn from a zoom on, when they stand apart. */
export const onLine: MapLayer = {
  id,
  parts: ({ plan }) => [plan],
  features({ plan }) {
    if (!plan) return featureCollection([]);
    const startDeg = plan.stations[0]?.position[0] ?? 0;
    const point = (position: readonly [number, number], properties: Record<string, unknown>) =>
      feature(
        { type: 'Point', coordinates: unwrapped([position], startDeg)[0] ?? [...position] },
        properties,
      );
    return featureCollection(
      plan.segments.flatMap((segment) => {
        const label = labelPlace(plan, segment);
        return [
          ...segment.pieces.map(({ position, captureDevice }) =>
            point(position, { kind: captureDevice ? 'piece-with-device' : 'piece' }),
          ),
          ...segment.gatherings.map(({ position }) =>
            point(position, { kind: segment.mode === 'pitched-belay' ? 'stance' : 'gathering' }),
          ),
          ...(label
            ? [
                point(label.position, {
                  ...label.beside,
                  kind: 'number',
                  text: `${segment.id} ${modeCode[segment.mode]}`,
                }),
              ]
            : []),
        ];
      }),
    );
  },
  layers: ({ ink, paper, casing, modes }) => [
    {
      id: `${id}-pieces`,
      source: id,
      type: 'circle',
      minzoom: piecesFromZoom,
      filter: ['in', ['get', 'kind'], ['literal', ['piece', 'piece-with-device']]],
      paint: {
        'circle-radius': 4.5,
        'circle-color': ['match', ['get', 'kind'], 'piece', paper, modes['running-belay'].line],
        'circle-stroke-color': casing,
        'circle-stroke-width': 2,
      },
    },
    {
      id: `${id}-gatherings`,
      source: id,
      type: 'symbol',
      minzoom: piecesFromZoom - 1.4,
      filter: ['in', ['get', 'kind'], ['literal', ['gathering', 'stance']]],
      layout: { 'icon-image': ['get', 'kind'], 'icon-allow-overlap': true },
    },
    {
      id: `${id}-numbers`,
      source: id,
      type: 'symbol',
      filter: ['==', ['get', 'kind'], 'number'],
      layout: {
        'text-field': ['get', 'text'],
        'text-font': ['sans-serif'],
        'text-size': 12,
        'text-anchor': ['get', 'anchor'],
        'text-offset': ['get', 'offset'],
        'text-padding': 3,
      },
      paint: { 'text-color': ink, 'text-halo-color': paper, 'text-halo-width': 1.8 },
    },
  ],
};
