/** Rope techniques, the most to the least free to move; then the two that are none. Names as in files. */
export const modes = [
  'roped',
  'running-belay',
  'pitched-belay',
  'belayed-crossing',
  'none-holds',
  'no-data',
] as const;

export type Mode = (typeof modes)[number];

/** What each mode is called, everywhere. */
export const modeName: Readonly<Record<Mode, string>> = {
  roped: 'roped travel',
  'running-belay': 'running belay',
  'pitched-belay': 'pitched belay',
  'belayed-crossing': 'belayed crossing',
  'none-holds': 'none holds',
  'no-data': 'no ground data',
};

/** Ways to do a mode, in the order in which they are tried. */
export const variants = ['roped', 'running', 'running-capture', 'running-double', 'pitched'] as const;

export type Variant = (typeof variants)[number];

export const variantMode: Readonly<Record<Variant, Mode>> = {
  roped: 'roped',
  running: 'running-belay',
  'running-capture': 'running-belay',
  'running-double': 'running-belay',
  pitched: 'pitched-belay',
};

export const variantName: Readonly<Record<Variant, string>> = {
  roped: 'no pieces',
  running: 'one piece per interval',
  'running-capture': 'with capture devices',
  'running-double': 'two pieces per interval',
  pitched: 'runners every 8 m',
};

/** How protective a mode is, for comparing an override with what the numbers ask. */
export const protection: Readonly<Record<Mode, number>> = {
  'no-data': 0,
  roped: 1,
  'running-belay': 2,
  'pitched-belay': 3,
  'belayed-crossing': 3,
  'none-holds': 4,
};
