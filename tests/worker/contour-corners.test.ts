import { VectorTile } from '@mapbox/vector-tile';
import { fromGeojsonVt } from '@maplibre/vt-pbf';
import { PbfReader } from 'pbf';
import { expect, test } from 'vitest';
import { withFewerCorners } from '../../src/worker/contour-corners';

test('a contour keeps its bends and what is said of it, and loses the corners that nobody sees', () => {
  const up = Array.from({ length: 60 }, (_, i): [number, number] => [10 * i, 20 * i + (i % 2)]);
  const along = Array.from({ length: 40 }, (_, i): [number, number] => [600 + 30 * i, 1200]);
  const tags = { ele: 1450, level: 1 };
  const tile = {
    features: [
      { type: 2, geometry: [[...up, ...along]], tags },
      { type: 2, geometry: [[[0, 0], [5, 5]]], tags: { ele: 1460, level: 0 } }, // prettier-ignore
    ],
  };
  const bytes = fromGeojsonVt({ contours: tile as never }, { version: 2, extent: 4096 });
  const { contours } = new VectorTile(
    new PbfReader(new Uint8Array(withFewerCorners(new Uint8Array(bytes).buffer))),
  ).layers;
  expect(contours?.length).toBe(2);
  const [bent, short] = [contours!.feature(0), contours!.feature(1)];
  expect(bent.properties).toEqual(tags);
  expect(bent.loadGeometry()[0]!.map(({ x, y }) => [x, y])).toEqual([
    [0, 0],
    [600, 1200],
    [1770, 1200],
  ]);
  expect(short.loadGeometry()[0]).toHaveLength(2);
});
