import { spawn, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

export interface Ran {
  readonly ms: number;
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
  /** Most memory held at one time, MB; null where it was not watched or the system does not tell. */
  readonly peakMB: number | null;
  /** All bytes it read, from files of whatever kind, MB; null likewise. */
  readonly readMB: number | null;
}

export interface RunOptions {
  /** To its standard input. */
  readonly input?: string;
  /** Its memory and reading are watched through /proc, which slows it. */
  readonly isWatched?: boolean;
}

/** Runs a program to its end. */
export async function run(
  command: string,
  args: readonly string[],
  { input, isWatched = false }: RunOptions = {},
): Promise<Ran> {
  const startMs = performance.now();
  const child = spawn(command, args, { stdio: ['pipe', 'pipe', 'pipe'] });
  let [stdout, stderr] = ['', ''];
  child.stdout.on('data', (text: Buffer) => (stdout += text.toString()));
  child.stderr.on('data', (text: Buffer) => (stderr += text.toString()));
  child.stdin.on('error', () => undefined);
  child.stdin.end(input);
  let peakMB: number | null = null;
  let readMB: number | null = null;
  const look = () => {
    peakMB = procNumber(child.pid, 'status', /VmHWM:\s+(\d+) kB/, 1024) ?? peakMB;
    readMB = procNumber(child.pid, 'io', /rchar: (\d+)/, 1024 * 1024) ?? readMB;
  };
  const watch = isWatched ? setInterval(look, 5) : undefined;
  const status = await new Promise<number | null>((done) => {
    child.on('error', () => done(-1));
    child.on('close', done);
  });
  clearInterval(watch);
  return { ms: performance.now() - startMs, status, stdout, stderr, peakMB, readMB };
}

function procNumber(pid: number | undefined, file: string, pattern: RegExp, per: number): number | null {
  if (pid === undefined) return null;
  try {
    const found = pattern.exec(readFileSync(`/proc/${pid}/${file}`, 'utf8'))?.[1];
    return found === undefined ? null : Number(found) / per;
  } catch {
    return null;
  }
}

/** The quickest of several runs, since whatever else the machine does only ever slows one. */
export async function quickest(runs: number, work: () => Promise<Ran>): Promise<Ran> {
  let best = await work();
  for (let i = 1; i < runs && best.status === 0; i++) {
    const next = await work();
    if (next.status !== 0) return next;
    if (next.ms < best.ms) best = next;
  }
  return best;
}

/** Two works by turns, so that both meet the same machine: the quickest of each. */
export async function quickestByTurns(
  rounds: number,
  one: () => Promise<Ran>,
  other: () => Promise<Ran>,
): Promise<[Ran, Ran]> {
  let best: [Ran, Ran] = [await one(), await other()];
  for (let i = 1; i < rounds && best.every(({ status }) => status === 0); i++) {
    const next = [await one(), await other()] as const;
    best = [quicker(best[0], next[0]), quicker(best[1], next[1])];
  }
  return best;
}

/** One that failed is told of. */
const quicker = (a: Ran, b: Ran): Ran => (b.status !== 0 || b.ms < a.ms ? b : a);

export const hasProgram = (name: string): boolean => spawnSync(name, ['--version']).error === undefined;
