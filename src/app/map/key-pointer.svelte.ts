import type { LngLat } from '../../core/domain/coordinates';
import type { LineMap } from './line-map';

interface Host {
  readonly lineMap: LineMap | null;
  /** The place pointed at changed. */
  readonly onMove: (at: LngLat, px: { readonly x: number; readonly y: number }) => void;
  readonly onSay: (text: string) => void;
}

const edgePx = 20;

/** The cross-hair: a pointer for the keyboard, in pixels of the map. */
export class KeyPointer {
  at = $state.raw<{ readonly x: number; readonly y: number } | null>(null);

  constructor(readonly host: () => Host) {}

  toggle(): void {
    const { lineMap, onSay } = this.host();
    if (!lineMap) return;
    const { clientWidth, clientHeight } = lineMap.map.getContainer();
    this.at = this.at ? null : { x: Math.round(clientWidth / 2), y: Math.round(clientHeight / 2) };
    onSay(this.at ? 'Cross-hair on: arrow keys move it, Enter clicks' : 'Cross-hair off');
    lineMap.map.getCanvas().focus();
  }

  move(dxPx: number, dyPx: number): void {
    const { lineMap, onMove } = this.host();
    if (!this.at || !lineMap) return;
    const { clientWidth, clientHeight } = lineMap.map.getContainer();
    const x = Math.max(edgePx, Math.min(clientWidth - edgePx, this.at.x + dxPx));
    const y = Math.max(edgePx, Math.min(clientHeight - edgePx, this.at.y + dyPx));
    // At the edge the map moves on beneath it.
    const over: [number, number] = [this.at.x + dxPx - x, this.at.y + dyPx - y];
    if (over[0] !== 0 || over[1] !== 0) lineMap.map.panBy(over, { animate: false });
    this.at = { x, y };
    onMove(lineMap.unproject(this.at), this.at);
  }
}
