/**
 * What differs between two immutable values that share structure, as data that can be stored, done and undone. Parts that
 * are the same object are not looked into, so an edit of one vertex of a long line stays one vertex long.
 */
export type Change =
  | { readonly kind: 'replace'; readonly before: unknown; readonly after: unknown }
  | { readonly kind: 'keys'; readonly keys: readonly (readonly [key: string, change: Change])[] }
  | {
      readonly kind: 'splice';
      readonly start: number;
      readonly removed: readonly unknown[];
      readonly added: readonly unknown[];
    };

type Dictionary = Readonly<Record<string, unknown>>;

const isDictionary = (value: unknown): value is Dictionary =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** @returns null where nothing differs. */
export function changeBetween(before: unknown, after: unknown): Change | null {
  if (Object.is(before, after)) return null;
  if (Array.isArray(before) && Array.isArray(after)) return splice(before, after);
  if (isDictionary(before) && isDictionary(after)) return keys(before, after);
  return { kind: 'replace', before, after };
}

function keys(before: Dictionary, after: Dictionary): Change | null {
  const changed: [string, Change][] = [];
  for (const key of new Set([...Object.keys(before), ...Object.keys(after)])) {
    const change = changeBetween(own(before, key), own(after, key));
    if (change) changed.push([key, change]);
  }
  return changed.length > 0 ? { kind: 'keys', keys: changed } : null;
}

/** Not what every object inherits: keys come from files. */
const own = (from: Dictionary, key: string): unknown => (Object.hasOwn(from, key) ? from[key] : undefined);

function splice(before: readonly unknown[], after: readonly unknown[]): Change | null {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && same(before[start], after[start])) start++;
  let tail = 0;
  while (tail < shorter - start && same(before[before.length - 1 - tail], after[after.length - 1 - tail]))
    tail++;
  const removed = before.slice(start, before.length - tail);
  const added = after.slice(start, after.length - tail);
  return removed.length + added.length > 0 ? { kind: 'splice', start, removed, added } : null;
}

/** Equal by content: an editor that makes every point anew does not make every point changed. */
const same = (a: unknown, b: unknown): boolean => changeBetween(a, b) === null;

/** @param way 'do' turns before into after, 'undo' after into before. */
export function applyChange(value: unknown, change: Change, way: 'do' | 'undo'): unknown {
  switch (change.kind) {
    case 'replace':
      return way === 'do' ? change.after : change.before;
    case 'splice': {
      const [out, into] = way === 'do' ? [change.removed, change.added] : [change.added, change.removed];
      const list = value as readonly unknown[];
      return [...list.slice(0, change.start), ...into, ...list.slice(change.start + out.length)];
    }
    case 'keys': {
      // Built from entries: a key that every object inherits becomes an own one, as it was.
      const entries = new Map(Object.entries(value as Dictionary));
      for (const [key, part] of change.keys) {
        const next = applyChange(entries.get(key), part, way);
        if (next === undefined) entries.delete(key);
        else entries.set(key, next);
      }
      return Object.fromEntries(entries);
    }
  }
}
