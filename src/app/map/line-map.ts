import { Map as MapLibreMap, setWorkerUrl, type StyleSpecification } from 'maplibre-gl';
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url';
import 'maplibre-gl/dist/maplibre-gl.css';
import type { LngLat } from '../../core/domain/coordinates';
import { themes, type ThemeName } from '../look/themes';
import {
  baseLayers,
  baseSources,
  boundsOf,
  hillSource,
  type BaseLook,
  type TileProtocol,
} from './base-style';
import { drawOrder } from './draw-order';
import type { OwnTiles } from './own-tiles';
import { follows, type Ground, type Scene } from './scene';
import { firstLayers, SourceFeed } from './source-feed';
import { symbolImages, symbolPixelRatio } from './symbol-images';
import { serveTiles, type MakeTile } from './tile-source';

export interface MapShow {
  readonly scene: Scene;
  readonly theme: ThemeName;
  readonly look: BaseLook;
  /** Changes when tiles made so far are no longer true: other rasters, other units. */
  readonly tilesVersion: number;
}

const groundProtocols = ['relief', 'slope', 'contours'] as const satisfies readonly TileProtocol[];

/**
 * The one map object of the page. It is a view: it is told everything through `show` and holds nothing that cannot be
 * drawn again, so a lost graphics context costs nothing.
 */
export class LineMap {
  readonly map: MapLibreMap;
  #shown: MapShow;
  readonly #feed: SourceFeed;
  #isLoaded = false;
  /** While the graphics are lost. */
  #takenOff: StyleSpecification | null = null;
  #sizePx: readonly [width: number, height: number];
  /** What is kept in view until the user moves the map. */
  #fitted: readonly LngLat[] | null = null;

  constructor(
    container: HTMLElement,
    first: MapShow,
    makeTile: MakeTile,
    readonly onLine: () => void,
  ) {
    setWorkerUrl(workerUrl);
    serveTiles(makeTile);
    this.#shown = first;
    this.#sizePx = [container.clientWidth, container.clientHeight];
    const theme = themes[first.theme];
    this.map = new MapLibreMap({
      container,
      attributionControl: false,
      fadeDuration: 0,
      doubleClickZoom: false,
      keyboard: true,
      trackResize: false,
      maxZoom: 20,
      pixelRatio: Math.min(window.devicePixelRatio, 2),
      bounds: boundsOf(first.scene.grounds),
      style: {
        version: 8,
        sources: {
          ...baseSources(first.tilesVersion, first.scene.grounds),
          ...Object.fromEntries(
            drawOrder.map(({ id, features }) => [
              id,
              { type: 'geojson', data: features(first.scene), tolerance: 0.2 },
            ]),
          ),
        },
        layers: [...baseLayers(theme, first.look), ...firstLayers(theme, first.scene)],
      },
    });
    this.#leaveSkyOut();
    this.#feed = new SourceFeed(this.map, (id, { plan }, ready) => {
      if (id === 'segments' && plan)
        void ready.then(() => this.map.once('render', () => this.#lineDrawn()).triggerRepaint());
    });
    this.#feed.begin(first.scene);
    this.map.on('style.load', () => {
      this.#addImages(this.#shown.theme);
      this.#isLoaded = true;
      this.show(this.#shown);
    });
    this.map.on('movestart', (event) => {
      if (event.originalEvent) this.#fitted = null;
    });
    this.map.on('resize', () => {
      if (this.#fitted) this.fit(this.#fitted);
    });
    container.addEventListener('webglcontextlost', () => this.#takeStyleOff(), { capture: true });
    this.map.on('webglcontextrestored', () => this.#putStyleOn());
    // The map library would draw once more where the size was followed before the frame already.
    const sized = new ResizeObserver(() => this.#followSize() && this.map.redraw());
    sized.observe(container);
    this.map.on('remove', () => sized.disconnect());
  }

  /** Draws a new scene; only what differs from the last one is handed to the map. */
  show(next: MapShow): void {
    const before = this.#shown;
    this.#shown = next;
    if (!this.#isLoaded) return;
    if (next.theme !== before.theme) this.#repaint(next);
    if (next.look !== before.look) this.#setLook(next);
    if (next.tilesVersion !== before.tilesVersion) this.#renewTiles(next.tilesVersion, next.scene.grounds);
    this.#feed.show(next.scene);
  }

  /** The map library (6.17) keeps for ever a style that it drops with its graphics: it is taken off before that. */
  #takeStyleOff(): void {
    this.#isLoaded = false;
    this.#takenOff = this.map.getStyle();
    this.map.setStyle(null);
  }

  /**
   * The map library (6.17) fills every frame with a sky first. The horizon never comes into view (60 degrees aslant at most),
   * and drawn by software the sky is a quarter of a frame.
   */
  #leaveSkyOut(): void {
    const { painter } = this.map;
    painter.drawFunctions = { ...painter.drawFunctions, sky: () => {} };
  }

  /** Its sources may have missed what was shown meanwhile. */
  #putStyleOn(): void {
    this.#leaveSkyOut();
    this.#feed.forget();
    this.map.setStyle(this.#takenOff);
  }

  /** The planned line is on the screen. Marked for whoever measures the page; the relief when it is there too. */
  #lineDrawn(): void {
    if (performance.getEntriesByName('line').length === 0) {
      performance.mark('line');
      this.map.once('idle', () => performance.mark('relief'));
    }
    this.onLine();
  }

  /** @returns whether the map's place has another size than the map. */
  #followSize(): boolean {
    const { clientWidth, clientHeight } = this.map.getContainer();
    const [widthPx, heightPx] = this.#sizePx;
    if (clientWidth === widthPx && clientHeight === heightPx) return false;
    this.#sizePx = [clientWidth, clientHeight];
    this.map.resize();
    return true;
  }

  /** Brings the line, or else the ground, into view, clear of what stands over the map; and keeps it there while the map is not moved. */
  fit(positions: readonly LngLat[]): void {
    this.#fitted = null;
    this.#followSize();
    this.#fitted = positions;
    const box = positions.length > 1 ? boxOf(positions) : boundsOf(this.#shown.scene.grounds);
    const { clientWidth, clientHeight } = this.map.getContainer();
    const edge = Math.min(40, clientHeight / 10);
    const beside = clientWidth > 480 ? clientWidth / 6 : edge;
    const padding = { top: edge, bottom: edge, left: beside, right: beside / 2 };
    this.map.fitBounds(box, { padding, animate: false, maxZoom: 17 });
  }

  /** Moves the map no more than needed: not at all where the place is well inside. */
  bringIntoView([lng, lat]: LngLat): void {
    const { clientWidth, clientHeight } = this.map.getContainer();
    const { x, y } = this.map.project([lng, lat]);
    const edge = Math.min(50, clientHeight / 8);
    if (x > edge && y > edge && x < clientWidth - edge && y < clientHeight - edge) return;
    this.#fitted = null;
    this.map.easeTo({ center: [lng, lat] });
  }

  project([lng, lat]: LngLat): { x: number; y: number } {
    return this.map.project([lng, lat]);
  }

  unproject({ x, y }: { readonly x: number; readonly y: number }): LngLat {
    const { lng, lat } = this.map.unproject([x, y]);
    return [lng, lat];
  }

  /** On the ground, in the middle of the map (Web Mercator on the equatorial radius, true to 0.4 %). */
  metresPerPx(): number {
    const latitude = (this.map.getCenter().lat * Math.PI) / 180;
    return (40_075_017 * Math.cos(latitude)) / (512 * 2 ** this.map.getZoom());
  }

  /** A picture of what is shown now, taken within a frame, since the canvas is empty between frames. */
  picture(): Promise<string> {
    return new Promise((resolve) => {
      this.map.once('render', () => resolve(this.map.getCanvas().toDataURL('image/png')));
      this.map.triggerRepaint();
    });
  }

  #addImages(theme: ThemeName): void {
    for (const [name, image] of symbolImages(themes[theme])) {
      if (this.map.hasImage(name)) this.map.updateImage(name, image);
      else this.map.addImage(name, image, { pixelRatio: symbolPixelRatio });
    }
  }

  #repaint({ theme, look }: MapShow): void {
    this.#addImages(theme);
    // Tiles keep the rims of patterns they were made with: they are made anew.
    this.#feed.forget();
    const layers = [
      ...baseLayers(themes[theme], look),
      ...drawOrder.flatMap(({ layers }) => layers(themes[theme])),
    ];
    for (const { id, paint } of layers)
      for (const [property, value] of Object.entries(paint ?? {}))
        this.map.setPaintProperty(id, property as 'line-color', value as string);
  }

  #setLook({ look, scene, tilesVersion }: MapShow): void {
    const visible = (on: boolean) => (on ? 'visible' : 'none');
    this.map.setLayoutProperty('slope', 'visibility', visible(look.slopeTint));
    for (const id of ['contours', 'contour-labels'])
      this.map.setLayoutProperty(id, 'visibility', visible(look.contours));
    const hasHills = this.map.getTerrain() !== null;
    if (look.hills === hasHills) return;
    if (look.hills) {
      this.map.addSource('hills', hillSource(tilesVersion, scene.grounds));
      this.map.setTerrain({ source: 'hills', exaggeration: 1 });
      this.map.easeTo({ pitch: 55 });
    } else {
      this.map.setTerrain(null);
      this.map.removeSource('hills');
      this.map.easeTo({ pitch: 0 });
    }
  }

  /**
   * A base map of the user's own beneath the relief; null takes it away.
   * @returns its credit, or why it cannot be shown
   */
  async setOwnTiles(tiles: OwnTiles | null): Promise<{ readonly credit: string; readonly why: string }> {
    if (this.map.getLayer('own')) this.map.removeLayer('own');
    if (this.map.getSource('own')) this.map.removeSource('own');
    if (!tiles) return { credit: '', why: '' };
    const { ownTilesSource } = await import('./own-tiles');
    const made = await ownTilesSource(tiles);
    if ('why' in made) return { credit: '', why: made.why };
    this.map.addSource('own', made.source);
    this.map.addLayer(
      { id: 'own', source: 'own', type: 'raster', paint: { 'raster-fade-duration': 0 } },
      'relief',
    );
    return { credit: made.attribution, why: '' };
  }

  /** Sources cannot change their bounds: they are made anew, beneath the same layers. */
  #renewTiles(version: number, grounds: readonly Ground[]): void {
    const { map } = this;
    const style = map.getStyle();
    const fresh = baseSources(version, grounds);
    if (map.getTerrain()) {
      map.setTerrain(null);
      map.removeSource('hills');
      map.addSource('hills', hillSource(version, grounds));
      map.setTerrain({ source: 'hills', exaggeration: 1 });
    }
    for (const protocol of groundProtocols) {
      const layers = style.layers.filter((layer) => 'source' in layer && layer.source === protocol);
      for (const { id } of layers) map.removeLayer(id);
      map.removeSource(protocol);
      const source = fresh[protocol];
      if (source) map.addSource(protocol, source);
    }
    // The bottom of the stack, in its order, goes back beneath the first layer that stayed.
    const first = drawOrder[0]?.layers(themes[this.#shown.theme])[0]?.id;
    for (const layer of baseLayers(themes[this.#shown.theme], this.#shown.look))
      if (!map.getLayer(layer.id)) map.addLayer(layer, first);
  }
}

/** West, south, east, north of a line; across the 180th meridian the short way. */
function boxOf(positions: readonly LngLat[]): [number, number, number, number] {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  let before = positions[0]?.[0] ?? 0;
  for (const [lngDeg, lat] of positions) {
    const lng = (before = follows(lngDeg, before));
    west = Math.min(west, lng);
    east = Math.max(east, lng);
    south = Math.min(south, lat);
    north = Math.max(north, lat);
  }
  return [west, south, east, north];
}
