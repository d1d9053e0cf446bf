import type { LngLat } from '../../core/domain/coordinates';
import type { Mark } from '../../core/domain/mark';
import type { LinePoint } from '../../core/domain/project';
import { deleteVertex, extendLine, isOnMap, mapEndDeg, moveVertex } from '../../core/line/edit';
import { themes } from '../look/themes';
import type { LineDrawing } from './drawing';
import type { LineMap } from './line-map';
import type { MapProps } from './map-props';
import { nextTask } from './next-task';
import { nearestIndex, pieceAround, withPiece, type Piece } from './piece';
import { isDrawn, look, toolHint, type Tool } from './tools';

/** What the pen works on and whom it tells; asked anew at every stroke. */
export interface PenHost extends Pick<
  MapProps,
  'theme' | 'onDrawn' | 'onPoints' | 'onMark' | 'onMarkPick' | 'onMarkPlaced' | 'onStretch' | 'onSay'
> {
  readonly lineMap: LineMap | null;
  readonly points: readonly LinePoint[];
  readonly marks: readonly Mark[];
  /** Place on the planned line within a finger's reach; null: none. */
  readonly alongAt: (at: LngLat) => number | null;
  readonly onPick: (alongM: number) => void;
}

const pointReachPx = 22;
const leastStretchM = 1;
const markReachPx = 14;

const wrapped = ([lng, lat]: LngLat): LngLat => [lng - 360 * Math.floor((lng + 180) / 360), lat];

/** The tool in hand. It holds a draft at most; the line itself is the project's and is told every change by name. */
export class Pen {
  tool = $state.raw<Tool>(look);
  /** The line being drawn, with the end of the rubber band. */
  draft = $state.raw<readonly LngLat[]>([]);
  /** Both ends of the stretch being set: where it was begun, and where the pointer is. */
  stretchFromM = $state.raw<number | null>(null);
  #stretchToM = $state.raw<number | null>(null);
  /** The point of the line that keys and buttons act on. */
  pointIndex = $state.raw<number | null>(null);
  #drawing = $state.raw<LineDrawing | null>(null);
  #piece: Piece | null = null;
  /** The line that the piece was taken from. */
  #pieceOf: readonly LinePoint[] | null = null;
  #isToFollow = false;
  /** The only point of a drawing that was ended too early: the next one goes on from it. */
  #kept: LngLat | null = null;

  constructor(readonly host: () => PenHost) {}

  readonly stretch = $derived.by((): readonly [number, number] | null => {
    const [from, to] = [this.stretchFromM, this.#stretchToM];
    return from === null || to === null ? null : [Math.min(from, to), Math.max(from, to)];
  });
  readonly isReady = $derived(!isDrawn(this.tool) || this.#drawing !== null);
  readonly isDrawing = $derived(this.draft.length > 1);

  async take(next: Tool): Promise<void> {
    this.#drawing?.stop();
    this.#drawing = null;
    this.#piece = null;
    this.draft = [];
    this.stretchFromM = null;
    this.#stretchToM = null;
    this.pointIndex = null;
    this.tool = next;
    const { lineMap, theme, onSay } = this.host();
    // A stretch is drawn along the line: the map stands still meanwhile.
    lineMap?.map.dragPan[next.kind === 'stretch' ? 'disable' : 'enable']();
    onSay(toolHint(next, false));
    if (!lineMap || !isDrawn(next)) return;
    const { LineDrawing: Drawing } = await import('./drawing');
    if (this.tool !== next) return;
    this.#drawing = new Drawing(lineMap.map, themes[theme], {
      onDraft: (positions) => (this.draft = positions),
      onDrawn: (positions) => this.#drawn(positions),
      onPiece: (positions) => this.#pieceEdited(positions),
    });
    if (next.kind === 'draw') {
      const { points } = this.host();
      const end = next.from === 'end' ? points.at(-1) : next.from === 'start' ? points[0] : undefined;
      this.#drawing.draw(end?.position ?? (next.from === 'new' ? this.#kept : null));
    } else if (next.kind === 'extent') this.#drawing.draw(null);
    else this.follow();
  }

  /** A click on the map. */
  click(at: LngLat): void {
    const { alongAt, onPick, onMark, onMarkPick, onMarkPlaced, onStretch } = this.host();
    switch (this.tool.kind) {
      case 'mark':
        onMark(this.tool.mark, wrapped(at));
        void this.take(look);
        return;
      case 'move-mark':
        onMarkPlaced(this.tool.id, [wrapped(at)]);
        void this.take(look);
        return;
      case 'points':
        this.choose(this.#pointAt(at));
        return;
      case 'draw':
      case 'extent':
        return;
      case 'look':
      case 'stretch': {
        const mark = this.tool.kind === 'look' ? this.#markAt(at) : null;
        if (mark !== null) return onMarkPick(mark);
        const alongM = alongAt(at);
        if (alongM === null) return;
        if (this.tool.kind === 'look') onPick(alongM);
        else if (this.stretchFromM === null) this.stretchFromM = alongM;
        else if (Math.abs(alongM - this.stretchFromM) > leastStretchM) {
          onStretch(Math.min(this.stretchFromM, alongM), Math.max(this.stretchFromM, alongM));
          void this.take(look);
        }
      }
    }
  }

  /** The pointer goes down on the map: a stretch may be drawn in one go instead of with two clicks. */
  down(at: LngLat): void {
    if (this.tool.kind === 'stretch' && this.stretchFromM === null)
      this.stretchFromM = this.host().alongAt(at);
  }

  /** The pointer's place along the line, if it is near. */
  pass(alongM: number | null): void {
    if (this.stretchFromM !== null && alongM !== null) this.#stretchToM = alongM;
  }

  up(at: LngLat): void {
    const { alongAt, lineMap } = this.host();
    if (this.stretchFromM === null || !lineMap) return;
    const to = alongAt(at) ?? this.#stretchToM;
    // A press without a drag is the first of two clicks.
    if (to === null || Math.abs(to - this.stretchFromM) < pointReachPx * lineMap.metresPerPx()) return;
    this.host().onStretch(Math.min(this.stretchFromM, to), Math.max(this.stretchFromM, to));
    void this.take(look);
  }

  /** The same by keyboard: the drawing library sees a pointer, a chosen point is put down, all else is a click. */
  press(at: { readonly x: number; readonly y: number }): void {
    const { lineMap } = this.host();
    if (!lineMap) return;
    const place = lineMap.unproject(at);
    if (this.tool.kind === 'draw' || this.tool.kind === 'extent') this.#drawing?.click(at);
    else if (this.tool.kind === 'points' && this.pointIndex !== null && this.#pointAt(place) === null)
      this.#move(this.pointIndex, place);
    else this.click(place);
  }

  hover(at: { readonly x: number; readonly y: number }): void {
    this.#drawing?.move(at);
  }

  /** Ends the tool and keeps what is drawn. */
  finish(): void {
    if ((this.tool.kind === 'draw' || this.tool.kind === 'extent') && this.#drawing)
      this.#drawn(this.#drawing.draft());
    else void this.take(look);
  }

  /** The line changed: its handles follow, once for all the changes of one task. */
  async followSoon(): Promise<void> {
    if (this.#isToFollow || !this.#drawing) return;
    this.#isToFollow = true;
    await nextTask();
    this.follow();
  }

  /** Takes up the points around the chosen one, or the middle of the map. */
  follow(): void {
    this.#isToFollow = false;
    const { points, lineMap } = this.host();
    if (this.tool.kind !== 'points' || !this.#drawing || !lineMap || points.length < 2) return;
    const { lng, lat } = lineMap.map.getCenter();
    const next = pieceAround(points.length, this.pointIndex ?? nearestIndex(points, [lng, lat]));
    const positions = points.slice(next.first, next.first + next.count).map(({ position }) => position);
    const isShown = this.#piece?.first === next.first && this.#drawing.shows(positions);
    this.#piece = next;
    this.#pieceOf = points;
    if (!isShown) this.#drawing.edit(positions);
  }

  choose(index: number | null): void {
    const { points, onSay } = this.host();
    if (index === null || index < 0 || index >= points.length) return;
    this.pointIndex = index;
    void this.followSoon();
    onSay(`Point ${index + 1} of ${points.length}`);
  }

  /** Moves the chosen point by pixels of the screen. */
  nudge(dxPx: number, dyPx: number): void {
    const { points, lineMap } = this.host();
    const point = this.pointIndex === null ? undefined : points[this.pointIndex];
    if (!point || !lineMap || this.pointIndex === null) return;
    const { x, y } = lineMap.project(point.position);
    this.#move(this.pointIndex, lineMap.unproject({ x: x + dxPx, y: y + dyPx }));
  }

  deletePoint(): void {
    const { points, onPoints } = this.host();
    const index = this.pointIndex;
    if (index === null || points.length < 3) return;
    this.pointIndex = Math.min(index, points.length - 2);
    onPoints(deleteVertex(points, index), `delete point ${index + 1}`);
  }

  #move(index: number, position: LngLat): void {
    const { points, onPoints, onSay } = this.host();
    if (!isOnMap(position)) return onSay(`No map beyond ${mapEndDeg}° of latitude: the point stays`);
    onPoints(moveVertex(points, index, wrapped(position)), `move point ${index + 1}`);
  }

  #pieceEdited(positions: readonly LngLat[]): void {
    if (!this.#piece) return;
    const { points, onPoints } = this.host();
    // Dragged as it stood before a change that the handles have not followed yet.
    if (points !== this.#pieceOf) return this.follow();
    const edited = withPiece(points, this.#piece, positions);
    this.#piece = { ...this.#piece, count: positions.length };
    onPoints(edited.points, edited.name);
    this.#pieceOf = this.host().points;
  }

  #drawn(positions: readonly LngLat[]): void {
    const { tool } = this;
    const from = tool.kind === 'draw' ? tool.from : 'new';
    void this.take(look);
    const { points, onDrawn, onPoints, onMarkPlaced, onSay } = this.host();
    const isLine = positions.some(
      (place) => place[0] !== positions[0]?.[0] || place[1] !== positions[0]?.[1],
    );
    this.#kept = !isLine && tool.kind === 'draw' && from === 'new' ? (positions[0] ?? null) : null;
    if (this.#kept) onSay('One point is no line yet. It is kept: Draw line goes on from it.');
    if (!isLine) return;
    if (tool.kind === 'extent') return onMarkPlaced(tool.id, positions);
    if (from === 'new') return onDrawn(positions);
    // The first drawn place is the line's own end.
    const longer = positions
      .slice(1)
      .reduce<readonly LinePoint[]>((line, position) => extendLine(line, from, position), points);
    onPoints(longer, `extend line from its ${from}`);
  }

  #markAt(at: LngLat): string | null {
    const { marks, lineMap } = this.host();
    if (!lineMap) return null;
    const here = lineMap.project(at);
    const near = marks.find(({ positions }) =>
      positions.some((position) => {
        const there = lineMap.project(position);
        return Math.hypot(there.x - here.x, there.y - here.y) < markReachPx;
      }),
    );
    return near?.id ?? null;
  }

  #pointAt(at: LngLat): number | null {
    const { points, lineMap } = this.host();
    if (!lineMap) return null;
    const here = lineMap.project(at);
    let best = pointReachPx;
    let found: number | null = null;
    for (const [i, { position }] of points.entries()) {
      const there = lineMap.project(position);
      const off = Math.hypot(there.x - here.x, there.y - here.y);
      if (off < best) [best, found] = [off, i];
    }
    return found;
  }
}
