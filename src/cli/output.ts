import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  unlinkSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { ProblemError } from '../core/domain/raster';
import type { Arguments } from './arguments';

/** Exit code of a process that its user stopped: 128 and the signal's number, as shells count. */
const stopped = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const;

/** Where data go: a file's name, or null for standard output. */
export const outOf = (args: Arguments): string | null => {
  const out = args.text('out');
  return out === '-' ? null : out;
};

/** Asked before the work is done, so that nobody waits for a plan that is then not written. */
export function mayWrite(files: readonly (string | null)[], args: Arguments): void {
  for (const file of files)
    if (file !== null && !args.flag('force') && existsSync(file) && statSync(file).isFile())
      throw standsAlready(file);
}

/**
 * Writes to the file, or to standard output. A file is either the old one or the whole new one, whenever we are stopped; one
 * that stands is replaced with --force only. What is no plain file (a device, a pipe) is written to as it is.
 */
export async function writeOut(text: string, file: string | null, args: Arguments): Promise<void> {
  if (file === null) return print(text);
  try {
    const stands = existsSync(file);
    if (stands && !statSync(file).isFile()) writeFileSync(file, text);
    else writeWhole(text, stands ? realpathSync(file) : file, args.flag('force'));
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    throw cannotBeWritten(file, error, 'Choose another place with --out; nothing was changed.');
  }
}

/** To standard output. Its failure comes by the callback; the event beside it would end us without a word. */
export async function print(text: string): Promise<void> {
  process.stdout.on('error', () => undefined);
  await new Promise<void>((done, failed) =>
    process.stdout.write(text, (error) => (error ? failed(standardOutputFault(error)) : done())),
  );
}

/** A line to standard error, without the stream that takes longer to load than the line to write. */
export function tell(line: string): void {
  try {
    writeSync(2, `${line}\n`);
  } catch {
    console.error(line); // a pipe that is full or gone
  }
}

/** A reader who has seen enough is no fault; a full disk behind a redirection is told. */
const standardOutputFault = (error: Error): Error =>
  (error as NodeJS.ErrnoException).code === 'EPIPE'
    ? error
    : cannotBeWritten('standard output', error, 'Send it to another place.');

/** Written beside, brought to the disk, then put in place in one step. */
function writeWhole(text: string, file: string, isForced: boolean): void {
  const beside = join(dirname(file), `.${basename(file)}.${process.pid}.part`);
  // While a signal waits, all of this runs to its end: no part of a file is left by who is stopped.
  const signals = Object.entries(stopped) as [keyof typeof stopped, number][];
  const leave = new Map(signals.map(([signal, code]) => [signal, () => process.exit(code)]));
  for (const [signal, handler] of leave) process.once(signal, handler);
  try {
    const handle = openSync(beside, 'w', existsSync(file) ? statSync(file).mode & 0o777 : 0o666);
    try {
      const bytes = new TextEncoder().encode(text);
      for (let at = 0; at < bytes.length;) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    if (isForced) renameSync(beside, file);
    else putWhereNoneStands(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  } finally {
    // A waiting signal is heard once this call is over.
    setImmediate(() => {
      for (const [signal, handler] of leave) process.off(signal, handler);
    });
  }
}

/** A link is made only where no file stands, even if one came while we worked; some file systems have none. */
function putWhereNoneStands(beside: string, file: string): void {
  try {
    linkSync(beside, file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST' || existsSync(file)) throw standsAlready(file);
    renameSync(beside, file);
    return;
  }
  unlinkSync(beside);
}

const standsAlready = (file: string): ProblemError =>
  new ProblemError({
    code: 'OUT-002',
    subject: file,
    place: null,
    title: 'stands already',
    remedy: 'Choose another place with --out, or replace it with --force; nothing was changed.',
  });

const cannotBeWritten = (subject: string, error: unknown, remedy: string): ProblemError =>
  new ProblemError({
    code: 'OUT-001',
    subject,
    place: null,
    title: `cannot be written (${(error as NodeJS.ErrnoException).code ?? String(error)})`,
    remedy,
  });

/** On a terminal only: one line that rewrites itself, for work over a second. */
export function progressLine(what: string): {
  readonly at: (done: number) => void;
  readonly end: () => void;
} {
  const startedMs = Date.now();
  let shown = false;
  return {
    at(done) {
      if (Date.now() - startedMs < 1000 || !process.stderr.isTTY) return;
      shown = true;
      process.stderr.write(`\r${what} ${Math.round(100 * done)} %`);
    },
    end() {
      if (shown) process.stderr.write('\r\x1b[K');
    },
  };
}
