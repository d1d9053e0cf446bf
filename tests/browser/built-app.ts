import { existsSync, readdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'vite';

/** The checkout, from wherever this file was built to. */
function checkout(from: string): string {
  return existsSync(join(from, 'vite.config.ts')) ? from : checkout(resolve(from, '..'));
}

const top = checkout(import.meta.dirname);
const built = join(top, 'dist/app');

function newestMs(path: string): number {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(path).map((name) => newestMs(join(path, name))));
}

/** The production build, made anew where a source is newer than it; or the one that FIRNWARD_BUILT names, as it is. */
export async function builtApp(): Promise<string> {
  const given = process.env['FIRNWARD_BUILT'];
  if (given) return resolve(given);
  const page = join(built, 'index.html');
  const sources = ['src', 'public', 'vite.config.ts', 'package.json'].map((name) =>
    newestMs(join(top, name)),
  );
  if (!existsSync(page) || statSync(page).mtimeMs < Math.max(...sources))
    await asProduction(() =>
      build({ configFile: join(top, 'vite.config.ts'), mode: 'production', logLevel: 'error' }),
    );
  return built;
}

/** A test runner's own NODE_ENV would bring the libraries' builds for developers, which are slow and keep every stack. */
async function asProduction(work: () => Promise<unknown>): Promise<void> {
  const before = process.env['NODE_ENV'];
  process.env['NODE_ENV'] = 'production';
  try {
    await work();
  } finally {
    if (before === undefined) delete process.env['NODE_ENV'];
    else process.env['NODE_ENV'] = before;
  }
}
