import { lineString } from '@turf/turf';
import type { Map as MapLibreMap } from 'maplibre-gl';
import { TerraDraw, TerraDrawLineStringMode, TerraDrawSelectMode, type HexColor } from 'terra-draw';
import { TerraDrawMapLibreGLAdapter } from 'terra-draw-maplibre-gl-adapter';
import type { LngLat } from '../../core/domain/coordinates';
import type { Theme } from '../look/themes';
import { pointerGate } from './pointer-gate';

export interface DrawingEvents {
  /** The line so far, with the end of the rubber band. */
  onDraft(positions: readonly LngLat[]): void;
  /** Finished with a second click on the last point. */
  onDrawn(positions: readonly LngLat[]): void;
  /** A point of the piece being edited was dragged, put in, or taken out. */
  onPiece(positions: readonly LngLat[]): void;
}

type Places = readonly LngLat[];

/** Decimals the drawing library takes; a tenth of a millimetre. */
const decimals = 9;
const rounded = (places: Places): [number, number][] =>
  places.map(([lng, lat]) => [+lng.toFixed(decimals), +lat.toFixed(decimals)]);

/** Wraps a longitude that was clicked beyond the 180th meridian. */
const wrapped = (places: readonly (readonly number[])[]): LngLat[] =>
  places.map(([lng = NaN, lat = NaN]) => [lng - 360 * Math.floor((lng + 180) / 360), lat]);

/** The library's index of places never forgets an id: it is begun anew before that weighs (terra-draw 1.35). */
const mostIds = 2000;

/** The drawing library as a pointer device: it holds a draft or a piece of the line while a tool is in hand, and nothing else. */
export class LineDrawing {
  #draw: TerraDraw;
  #ids = 0;
  readonly #over = new AbortController();
  readonly #gate = pointerGate();
  #isEditing = false;

  constructor(
    readonly map: MapLibreMap,
    readonly theme: Theme,
    readonly events: DrawingEvents,
  ) {
    this.#draw = this.#begin();
    const place = map.getCanvasContainer();
    for (const type of ['pointerdown', 'pointermove', 'pointerup', 'pointercancel'] as const)
      place.addEventListener(type, this.#gate, { capture: true, signal: this.#over.signal });
  }

  #begin(): TerraDraw {
    this.#ids = 0;
    const draw = new TerraDraw({
      adapter: new TerraDrawMapLibreGLAdapter({
        map: this.map,
        coordinatePrecision: decimals,
        prefixId: 'draft',
      }),
      idStrategy: { getId: () => ++this.#ids, isValidId: Number.isInteger },
      modes: modesOf(this.theme),
    });
    draw.on('change', () => {
      if (!this.#isEditing) this.events.onDraft(this.#line());
    });
    draw.on('finish', (_id, { action }) => {
      const line = this.#line();
      if (this.#isEditing) this.events.onPiece(line);
      else if (action === 'draw') {
        draw.clear();
        this.events.onDrawn(line);
      }
    });
    draw.start();
    return draw;
  }

  /** Takes up the pen. With `from`, the line goes on from there. */
  draw(from: LngLat | null): void {
    this.#isEditing = false;
    this.#draw.clear();
    this.#draw.setMode('linestring');
    if (from) this.click(this.map.project([from[0], from[1]]));
  }

  /** Shows a piece of the line with its points as handles. */
  edit(piece: Places): void {
    if (this.#ids > mostIds) {
      this.#draw.stop();
      this.#draw = this.#begin();
    }
    this.#draw.setMode('select');
    this.#draw.clear();
    this.#isEditing = true;
    const id = this.#draw.getFeatureId();
    const [validation] = this.#draw.addFeatures([lineString(rounded(piece), { mode: 'linestring' }, { id })]);
    if (!validation?.valid)
      throw new Error(`The drawing library refused the line: ${validation?.reason ?? ''}`);
    this.#draw.selectFeature(id);
  }

  /** Whether these are the places whose handles are shown. */
  shows(piece: Places): boolean {
    const shown = this.#line();
    return (
      shown.length === piece.length &&
      shown.every(([lng, lat], i) => {
        const [atLng = NaN, atLat = NaN] = piece[i] ?? [];
        return Math.abs(lng - atLng) < 2e-9 && Math.abs(lat - atLat) < 2e-9;
      })
    );
  }

  /** What is drawn so far, without the loose end of the rubber band. */
  draft(): LngLat[] {
    return this.#line().slice(0, -1);
  }

  /** Puts the tool down; the draft is gone from the map. */
  stop(): void {
    this.#over.abort();
    if (this.#draw.enabled) this.#draw.stop();
  }

  /** A click of the keyboard's cross-hair: the same to the library as one of the pointer. */
  click(at: { readonly x: number; readonly y: number }): void {
    this.move(at);
    this.#point('pointerdown', at, 1);
    this.#point('pointerup', at, 0);
  }

  move(at: { readonly x: number; readonly y: number }): void {
    this.#point('pointermove', at, 0);
  }

  #point(type: string, { x, y }: { readonly x: number; readonly y: number }, buttons: number): void {
    const canvas = this.map.getCanvas();
    const frame = canvas.getBoundingClientRect();
    canvas.dispatchEvent(
      new PointerEvent(type, {
        clientX: frame.left + x,
        clientY: frame.top + y,
        button: type === 'pointermove' ? -1 : 0,
        buttons,
        pointerId: 1,
        isPrimary: true,
        bubbles: true,
      }),
    );
  }

  #line(): LngLat[] {
    const line = this.#draw.getSnapshot().find(({ geometry }) => geometry.type === 'LineString');
    return line?.geometry.type === 'LineString' ? wrapped(line.geometry.coordinates) : [];
  }
}

function modesOf(theme: Theme): [TerraDrawLineStringMode, TerraDrawSelectMode] {
  const ink = theme.ink as HexColor;
  const paper = theme.paper as HexColor;
  const edge = theme.edge as HexColor;
  return [
    new TerraDrawLineStringMode({
      // Escape and Enter are ours: a draft is never thrown away by a key.
      keyEvents: { cancel: null, finish: null },
      showCoordinatePoints: true,
      styles: {
        lineStringColor: ink,
        lineStringWidth: 3,
        lineStringDash: [6, 3],
        coordinatePointColor: paper,
        coordinatePointWidth: 5,
        coordinatePointOutlineColor: ink,
        coordinatePointOutlineWidth: 2,
        closingPointColor: ink,
        closingPointWidth: 6,
        closingPointOutlineColor: paper,
        closingPointOutlineWidth: 2,
      },
    }),
    new TerraDrawSelectMode({
      allowManualDeselection: false,
      keyEvents: { deselect: null, delete: null, rotate: null, scale: null },
      pointerDistance: 22,
      flags: {
        linestring: {
          feature: {
            draggable: false,
            coordinates: { midpoints: { draggable: true }, draggable: true, deletable: true },
          },
        },
      },
      styles: {
        selectedLineStringColor: ink,
        selectedLineStringWidth: 2,
        selectionPointColor: paper,
        selectionPointWidth: 7,
        selectionPointOutlineColor: ink,
        selectionPointOutlineWidth: 2.5,
        midPointColor: paper,
        midPointOpacity: 0.8,
        midPointWidth: 4,
        midPointOutlineColor: edge,
        midPointOutlineWidth: 1.5,
      },
    }),
  ];
}
