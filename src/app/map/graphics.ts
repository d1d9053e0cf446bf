/** Whether this browser can draw the map at all. Software graphics count: they are slow, not wrong. */
export function hasGraphics(): boolean {
  const graphics = document.createElement('canvas').getContext('webgl2');
  // Contexts are few: this one is given back at once.
  graphics?.getExtension('WEBGL_lose_context')?.loseContext();
  return graphics !== null;
}
