import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { ProblemError } from '../core/domain/raster';

/** Writes to the file, or to standard output. A file is either the old one or the whole new one, whenever we are stopped. */
export async function writeOut(text: string, file: string | null): Promise<void> {
  if (file === null) {
    await new Promise<void>((done, failed) =>
      process.stdout.write(text, (error) => (error ? failed(error) : done())),
    );
    return;
  }
  const beside = join(dirname(file), `.${basename(file)}.${process.pid}.part`);
  try {
    const handle = openSync(beside, 'w');
    try {
      const bytes = new TextEncoder().encode(text);
      for (let at = 0; at < bytes.length;) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw new ProblemError({
      code: 'OUT-001',
      subject: file,
      place: null,
      title: `cannot be written (${(error as NodeJS.ErrnoException).code ?? String(error)})`,
      remedy: 'Choose another place with --out; nothing was changed.',
    });
  }
}

/** On a terminal only: one line that rewrites itself, for work over a second. */
export function progressLine(what: string): {
  readonly at: (done: number) => void;
  readonly end: () => void;
} {
  const startedMs = Date.now();
  let shown = false;
  return {
    at(done) {
      if (!process.stderr.isTTY || Date.now() - startedMs < 1000) return;
      shown = true;
      process.stderr.write(`\r${what} ${Math.round(100 * done)} %`);
    },
    end() {
      if (shown) process.stderr.write('\r\x1b[K');
    },
  };
}
