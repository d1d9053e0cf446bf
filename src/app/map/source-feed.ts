import type { GeoJSONSource, Map as MapLibreMap } from 'maplibre-gl';
import { drawOrder } from './draw-order';
import { nextTask } from './next-task';
import type { Scene } from './scene';

/**
 * Keeps the features of the map's sources in step with the scene. Only what differs is handed over, and each source in a
 * task of its own: a line of thousands of stations would otherwise hold up the page. The newest scene wins.
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
    while (this.#scene && this.#feedNext(this.#scene));
    this.#isUnderWay = false;
  }

  /** @returns false where every source holds what the scene says. */
  #feedNext(scene: Scene): boolean {
    for (const { id, parts, features } of drawOrder) {
      const now = parts(scene);
      if (this.#given.get(id)?.every((part, i) => Object.is(part, now[i]))) continue;
      const source = this.map.getSource<GeoJSONSource>(id);
      if (!source) continue; // The context is lost: drawn again when it is back.
      this.#given.set(id, now);
      this.onGiven(id, scene, source.setData(features(scene)));
      return true;
    }
    return false;
  }
}
