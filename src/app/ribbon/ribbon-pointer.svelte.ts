import type { AlongAxis, ViewWindow } from '../../core/sheet/along-axis';

/** What a pointer needs to know of the ribbon, and what it asks of it. */
export interface PointedRibbon {
  axis(): AlongAxis;
  view(): ViewWindow;
  /** How much of the line a pixel shows. */
  metresPerPx(): number;
  mayBrush(): boolean;
  /** The station nearest to a place. */
  stationAt(alongM: number): number;
  point(alongM: number | null): void;
  choose(alongM: number): void;
  brush(fromM: number, toM: number): void;
  /** Moves the window as it was when the press began. */
  panFrom(view: ViewWindow, byM: number): void;
  panBy(share: number): void;
  zoom(factor: number, aboutM: number): void;
}

/** Less than this is a click, not a drag. */
const clickPx = 4;

/** A pointer over the ribbon: passing, clicking, brushing a stretch, pushing the view (Shift, or where nothing is brushed). */
export class RibbonPointer {
  /** Both ends of a stretch that is being dragged. */
  dragged = $state.raw<{ readonly fromM: number; readonly toM: number } | null>(null);
  #press: { px: number; alongM: number; isPan: boolean; view: ViewWindow } | null = null;

  constructor(readonly ribbon: PointedRibbon) {}

  readonly pressed = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    const { ribbon } = this;
    this.#press = {
      px: pxOf(event),
      alongM: this.#alongOf(event),
      isPan: event.shiftKey || !ribbon.mayBrush(),
      view: ribbon.view(),
    };
    if (event.pointerType !== 'touch') (event.currentTarget as Element).setPointerCapture(event.pointerId);
  };

  readonly moved = (event: PointerEvent): void => {
    const { ribbon } = this;
    const press = this.#press;
    const alongM = this.#alongOf(event);
    ribbon.point(ribbon.stationAt(alongM));
    if (!press || event.pointerType === 'touch' || Math.abs(pxOf(event) - press.px) < clickPx) return;
    if (press.isPan) ribbon.panFrom(press.view, (press.px - pxOf(event)) * ribbon.metresPerPx());
    else this.dragged = { fromM: Math.min(press.alongM, alongM), toM: Math.max(press.alongM, alongM) };
  };

  readonly released = (event: PointerEvent): void => {
    const { ribbon, dragged } = this;
    const press = this.#press;
    if (press && Math.abs(pxOf(event) - press.px) < clickPx) ribbon.choose(ribbon.stationAt(press.alongM));
    else if (dragged && dragged.toM > dragged.fromM)
      ribbon.brush(ribbon.stationAt(dragged.fromM), ribbon.stationAt(dragged.toM));
    this.putDown();
  };

  readonly left = (): void => {
    if (!this.#press) this.ribbon.point(null);
  };

  readonly wheeled = (event: WheelEvent): void => {
    event.preventDefault();
    const { deltaX, deltaY } = event;
    if (event.shiftKey || Math.abs(deltaX) > Math.abs(deltaY))
      this.ribbon.panBy(Math.sign(deltaX || deltaY) * 0.1);
    else this.ribbon.zoom(deltaY > 0 ? 1.25 : 0.8, this.#alongOf(event));
  };

  readonly putDown = (): void => {
    this.#press = null;
    this.dragged = null;
  };

  #alongOf(event: MouseEvent): number {
    const { shown, x } = this.ribbon.axis();
    return Math.min(shown[1], Math.max(shown[0], x.fromPx(pxOf(event))));
  }
}

const pxOf = (event: MouseEvent): number =>
  event.clientX - (event.currentTarget as Element).getBoundingClientRect().left;
