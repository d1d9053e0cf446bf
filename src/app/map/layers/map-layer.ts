import type { FeatureCollection } from 'geojson';
import type { LayerSpecification } from 'maplibre-gl';
import type { Theme } from '../../look/themes';
import type { Scene } from '../scene';

/** One source of features and the layers that draw it. */
export interface MapLayer {
  readonly id: string;
  /** Parts of the scene the features depend on: the same parts give the same features. */
  readonly parts: (scene: Scene) => readonly unknown[];
  readonly features: (scene: Scene) => FeatureCollection;
  /** Bottom first; `source` is the id above. */
  readonly layers: (theme: Theme) => readonly LayerSpecification[];
}
