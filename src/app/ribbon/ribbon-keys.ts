/** What the keys do on the ribbon. */
export interface RibbonMoves {
  /** By so many stations. */
  step(by: number): void;
  /** To the next border of segments. */
  border(by: 1 | -1): void;
  toStart(): void;
  toEnd(): void;
  zoom(factor: number): void;
  whole(): void;
  choose(): void;
  /** Absent: no stretch can be set. */
  readonly stretch?: { open(): void; close(): void };
  putDown(): void;
}

/** Does what a key stands for; what it stands for nothing is left to the page. */
export function ribbonKey(event: KeyboardEvent, moves: RibbonMoves): void {
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  const far = event.shiftKey ? 10 : 1;
  const actions: Readonly<Record<string, (() => void) | undefined>> = {
    ArrowLeft: () => moves.step(-far),
    ArrowRight: () => moves.step(far),
    PageUp: () => moves.border(-1),
    PageDown: () => moves.border(1),
    Home: () => moves.toStart(),
    End: () => moves.toEnd(),
    '+': () => moves.zoom(0.5),
    '=': () => moves.zoom(0.5),
    '-': () => moves.zoom(2),
    '0': () => moves.whole(),
    Enter: () => moves.choose(),
    ' ': () => moves.choose(),
    '[': moves.stretch && (() => moves.stretch?.open()),
    ']': moves.stretch && (() => moves.stretch?.close()),
    Escape: () => moves.putDown(),
  };
  const action = actions[event.key];
  if (!action) return;
  event.preventDefault();
  action();
}
