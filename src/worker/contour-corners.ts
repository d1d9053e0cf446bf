import { VectorTile, type VectorTileFeature } from '@mapbox/vector-tile';
import { fromVectorTileJs } from '@maplibre/vt-pbf';
import { PbfReader } from 'pbf';
import { fewerCorners } from '../core/line/fewer-corners';

/** In the units of a tile of 4096: half a pixel where the tile is drawn 512 pixels wide. */
const tolerance = 4;

/**
 * A contour tile (vector tile, protocol buffers) with only the corners that are seen: isolines have one in every cell of their
 * grid, and each costs the map two triangles in every frame.
 */
export function withFewerCorners(tile: ArrayBuffer): ArrayBuffer {
  const { layers } = new VectorTile(new PbfReader(new Uint8Array(tile)));
  for (const layer of Object.values(layers)) {
    const whole = layer.feature.bind(layer);
    layer.feature = (i) => thinned(whole(i));
  }
  return new Uint8Array(fromVectorTileJs({ layers })).buffer;
}

function thinned(feature: VectorTileFeature): VectorTileFeature {
  const lines = feature.loadGeometry().map(([first, ...rest]) => {
    if (!first) return [];
    const kept = fewerCorners(
      [first, ...rest].map(({ x, y }) => [x, y]),
      tolerance,
    );
    return kept.map(([x, y]) => Object.assign(first.clone(), { x, y }));
  });
  feature.loadGeometry = () => lines;
  return feature;
}
