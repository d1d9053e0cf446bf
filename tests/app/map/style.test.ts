import { validateStyleMin, type StyleSpecification } from '@maplibre/maplibre-gl-style-spec';
import { describe, expect, test } from 'vitest';
import { themeNames, themes } from '../../../src/app/look/themes';
import { baseLayers, baseSources, boundsOf, finestZoom } from '../../../src/app/map/base-style';
import { drawOrder } from '../../../src/app/map/draw-order';
import type { Ground, Scene } from '../../../src/app/map/scene';
import { defaultProject } from '../../../src/core/files/project';

const ground: Ground = {
  key: 'a',
  cellM: 5,
  outline: [
    [-21.4, -48.5],
    [-21.3, -48.5],
    [-21.3, -48.4],
    [-21.4, -48.5],
  ],
  west: -21.4,
  south: -48.5,
  east: -21.3,
  north: -48.4,
};

const scene: Scene = {
  plan: null,
  project: defaultProject(),
  grounds: [ground],
  traces: [],
  selectedId: null,
  units: 'metric',
  preview: null,
  stretch: null,
  here: null,
};

describe.each(themeNames)('the map in %s', (name) => {
  test('is a style that the map library takes: every layer, every expression', () => {
    const style = {
      version: 8,
      sources: {
        ...baseSources(1, [ground]),
        ...Object.fromEntries(
          drawOrder.map(({ id, features }) => [id, { type: 'geojson', data: features(scene) }]),
        ),
      },
      layers: [
        ...baseLayers(themes[name], { contours: true, slopeTint: true, hills: false }),
        ...drawOrder.flatMap(({ layers }) => layers(themes[name])),
      ],
    };
    // Labels are drawn from the device's own faces: there is no address to fetch glyphs from.
    const errors = validateStyleMin(style as unknown as StyleSpecification).filter(
      ({ message }) => !message.includes('glyphs'),
    );
    expect(errors.map(({ message }) => message)).toEqual([]);
  });
});

test('every layer has an id of its own and draws from its own source', () => {
  const layers = drawOrder.flatMap(({ id, layers: of }) => of(themes.day).map((layer) => ({ id, layer })));
  expect(new Set(layers.map(({ layer }) => layer.id)).size).toBe(layers.length);
  for (const { id, layer } of layers) expect('source' in layer && layer.source).toBe(id);
});

test('the finest tiles are as fine as the finest raster', () => {
  const latitude = (48.45 * Math.PI) / 180;
  const pixelM = (zoom: number) => (40_075_017 * Math.cos(latitude)) / 256 / 2 ** zoom;
  expect(pixelM(finestZoom([ground]))).toBeLessThanOrEqual(5);
  expect(pixelM(finestZoom([ground]) - 1)).toBeGreaterThan(5);
  expect(boundsOf([ground, { ...ground, west: -22 }])).toEqual([-22, -48.5, -21.3, -48.4]);
});
