/** Two presses nearer than this in time and place are one: a nervous finger, a double click. */
const twiceMs = 300;
const twicePx = 5;

/**
 * Keeps presses from the drawing library that are meant otherwise: the second half of a double click, and every finger once
 * two are down, since they pinch the map. Listens before the library does.
 */
export function pointerGate(): (event: PointerEvent) => void {
  const down = new Set<number>();
  let isPinch = false;
  let isTwice = false;
  let last = { atMs: -Infinity, x: 0, y: 0 };
  return (event) => {
    const { type, pointerId, timeStamp, clientX, clientY, isTrusted } = event;
    // Presses of the keyboard's cross-hair are made by the page itself, one at a time.
    if (!isTrusted) return;
    if (type === 'pointerdown') {
      down.add(pointerId);
      isPinch ||= down.size > 1;
      isTwice = timeStamp - last.atMs < twiceMs && Math.hypot(clientX - last.x, clientY - last.y) < twicePx;
      last = { atMs: timeStamp, x: clientX, y: clientY };
    }
    if (isPinch || isTwice) event.stopPropagation();
    if (type === 'pointerup' || type === 'pointercancel') {
      down.delete(pointerId);
      if (down.size === 0) isPinch = isTwice = false;
    }
  };
}
