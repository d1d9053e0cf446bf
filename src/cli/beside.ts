import { existsSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';

/** What lies beside a raster and belongs to it: its world file, and files that are not read. */
export interface Beside {
  readonly worldFile: string | undefined;
  readonly beside: readonly string[];
}

export function besideFile(path: string): Beside {
  const stem = path.replace(/\.[^./\\]*$/, '');
  const world = ['.tfw', '.tifw', '.wld', '.TFW'].map((end) => stem + end).find((file) => existsSync(file));
  return {
    worldFile: world === undefined ? undefined : readFileSync(world, 'latin1').slice(0, 4096),
    beside: [`${path}.ovr`, `${path}.msk`].filter((file) => existsSync(file)).map((file) => basename(file)),
  };
}
