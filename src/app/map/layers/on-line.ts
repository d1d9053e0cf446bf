import { modeCode } from '../../../core/sheet/mode-pattern';
import { placeAt } from '../stations';
import { unwrapped } from '../scene';
import { collection, feature, type MapLayer } from './map-layer';

const id = 'on-line';
const piecesFromZoom = 15.2;

/** Pieces, gathering places and stances where they would be set: drawn from a zoom on, when they stand apart. */
export const onLine: MapLayer = {
  id,
  parts: ({ plan }) => [plan],
  features({ plan }) {
    if (!plan) return collection([]);
    const startDeg = plan.stations[0]?.position[0] ?? 0;
    const point = (position: readonly [number, number], properties: Record<string, unknown>) =>
      feature(
        { type: 'Point', coordinates: unwrapped([position], startDeg)[0] ?? [...position] },
        properties,
      );
    return collection(
      plan.segments.flatMap((segment) => {
        const middle = placeAt(plan.stations, (segment.fromM + segment.toM) / 2);
        return [
          ...segment.pieces.map(({ position, captureDevice }) =>
            point(position, { kind: captureDevice ? 'piece-with-device' : 'piece' }),
          ),
          ...segment.gatherings.map(({ position }) => point(position, { kind: 'gathering' })),
          ...(middle
            ? [point(middle, { kind: 'number', text: `${segment.id} ${modeCode[segment.mode]}` })]
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
      filter: ['==', ['get', 'kind'], 'gathering'],
      layout: { 'icon-image': 'gathering', 'icon-allow-overlap': true },
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
        'text-variable-anchor': ['left', 'right', 'top', 'bottom'],
        'text-radial-offset': 1.1,
        'text-padding': 3,
      },
      paint: { 'text-color': ink, 'text-halo-color': paper, 'text-halo-width': 1.8 },
    },
  ],
};
