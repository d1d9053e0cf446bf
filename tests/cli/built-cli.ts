import { execFile } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'vite';

const top = resolve(import.meta.dirname, '../..');
const entry = join(top, 'dist/cli/firnward.js');

function newestMs(path: string): number {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(path).map((name) => newestMs(join(path, name))));
}

/** The built command line, made anew where a source is newer than it. */
export async function builtCommandLine(): Promise<string> {
  const sources = ['src/core', 'src/cli', 'vite.config.ts'].map((name) => newestMs(join(top, name)));
  if (!existsSync(entry) || statSync(entry).mtimeMs < Math.max(...sources))
    await build({ configFile: join(top, 'vite.config.ts'), mode: 'cli', logLevel: 'error' });
  return entry;
}

export interface Left {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line to its end. */
export async function firnward(words: readonly string[]): Promise<Left> {
  const command = await builtCommandLine();
  return new Promise((done) => {
    execFile(process.execPath, [command, ...words], { cwd: top, maxBuffer: 2 ** 28 }, (error, out, err) => {
      done({ code: typeof error?.code === 'number' ? error.code : error === null ? 0 : -1, out, err });
    });
  });
}
