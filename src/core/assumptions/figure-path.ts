import type { Figures } from './figures';

type Tree = { readonly [name: string]: Tree | number };

/** Every number in the figures with its dotted path. */
export function figurePaths(figures: Figures): [key: string, value: number][] {
  return leaves(figures as unknown as Tree, []);
}

function leaves(tree: Tree, path: readonly string[]): [string, number][] {
  return Object.entries(tree).flatMap(([name, branch]) =>
    typeof branch === 'number'
      ? [[[...path, name].join('.'), branch] as [string, number]]
      : leaves(branch, [...path, name]),
  );
}

/** @throws RangeError if no number stands at that path: a defect in a catalogue. */
export function figureAt(figures: Figures, key: string): number {
  const found = key
    .split('.')
    .reduce<Tree | number | undefined>(
      (branch, name) =>
        typeof branch === 'object' && Object.hasOwn(branch, name) ? branch[name] : undefined,
      figures as unknown as Tree,
    );
  if (typeof found !== 'number') throw new RangeError(`No figure at ${key}`);
  return found;
}

/** The same figures but for one number. */
export function withFigure(figures: Figures, key: string, value: number): Figures {
  figureAt(figures, key);
  const set = (tree: Tree, [name, ...rest]: readonly string[]): Tree => ({
    ...tree,
    [name!]: rest.length === 0 ? value : set(tree[name!] as Tree, rest),
  });
  return set(figures as unknown as Tree, key.split('.')) as unknown as Figures;
}
