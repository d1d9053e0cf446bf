import type { GeoJSONSource, LayerSpecification, Map as MapLibreMap } from 'maplibre-gl';
import { themes, type Theme } from '../look/themes';
import { drawOrder } from './draw-order';
import { nextTask } from './next-task';
import type { Scene } from './scene';

/** A source without features is not shown: its tiles would still be cut out, empty, in every frame. */
const visibilityOf = (features: readonly unknown[]) => (features.length > 0 ? 'visible' : 'none');

/** The layers over the relief for the scene that the sources begin with. */
export const firstLayers = (theme: Theme, scene: Scene): LayerSpecification[] =>
  drawOrder.flatMap(({ features, layers }) => {
    const visibility = visibilityOf(features(scene).features);
    return layers(theme).map((layer) => ({ ...layer, layout: { ...layer.layout, visibility } }));
  });

/** A task of this length holds nobody up; every task that hands something over costs the map a frame. */
const taskMs = 12;

/**
 * Keeps the features of the map's sources in step with the scene. Only what differs is handed over, as many sources in a
 * task as it has time for: a line of thousands of stations would otherwise hold up the page. The newest scene wins.
 */
export class SourceFeed {
  readonly #given = new Map<string, readonly unknown[]>();
  #scene: Scene | null = null;
  #isUnderWay = false;

  /** @param onGiven a source was handed its features; the promise tells when they are ready to be drawn. */
  constructor(
    readonly map: MapLibreMap,
    readonly onGiven: (id: string, scene: Scene, ready: Promise<unknown>) => void,
  ) {}

  /** The sources hold this scene's features already. */
  begin(scene: Scene): void {
    for (const { id, parts } of drawOrder) this.#given.set(id, parts(scene));
  }

  /** The sources may have missed what was handed over: everything is given again. */
  forget(): void {
    this.#given.clear();
  }

  show(scene: Scene): void {
    this.#scene = scene;
    if (!this.#isUnderWay) void this.#feed();
  }

  async #feed(): Promise<void> {
    this.#isUnderWay = true;
    do await nextTask();
    while (this.#scene && this.#feedFor(taskMs, this.#scene));
    this.#isUnderWay = false;
  }

  /** @returns whether time ran out before every source held what the scene says. */
  #feedFor(ms: number, scene: Scene): boolean {
    const endMs = performance.now() + ms;
    while (this.#feedNext(scene)) if (performance.now() > endMs) return true;
    return false;
  }

  /** @returns false where every source holds what the scene says. */
  #feedNext(scene: Scene): boolean {
    for (const { id, parts, features, layers } of drawOrder) {
      const now = parts(scene);
      if (this.#given.get(id)?.every((part, i) => Object.is(part, now[i]))) continue;
      const source = this.map.getSource<GeoJSONSource>(id);
      if (!source) continue; // The context is lost: drawn again when it is back.
      this.#given.set(id, now);
      const made = features(scene);
      for (const layer of layers(themes.day))
        this.map.setLayoutProperty(layer.id, 'visibility', visibilityOf(made.features));
      this.onGiven(id, scene, source.setData(made));
      return true;
    }
    return false;
  }
}
