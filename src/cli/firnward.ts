import { problemLine } from '../core/domain/problem';
import { ProblemError } from '../core/domain/raster';
import { UsageError } from './arguments';
import { nearestWord } from './nearest-word';
import { print } from './output';
import { slipThreadWord } from './slip-thread-word';

const exit = { done: 0, fault: 1, usage: 2, input: 3 } as const;

interface Verb {
  readonly run: (words: readonly string[]) => Promise<void>;
  readonly help: string;
}

/** Each is loaded when it is called: most of the time of a short job is reading the program. */
const verbs: Readonly<Record<string, () => Promise<Verb>>> = {
  plan: () => import('./plan').then(({ plan: run, planHelp: help }) => ({ run, help })),
  ground: () => import('./ground').then(({ ground: run, groundHelp: help }) => ({ run, help })),
  slip: () => import('./slip').then(({ slip: run, slipHelp: help }) => ({ run, help })),
  pace: () => import('./pace').then(({ pace: run, paceHelp: help }) => ({ run, help })),
  convert: () => import('./convert').then(({ convert: run, convertHelp: help }) => ({ run, help })),
};

const helpOf = (all: readonly Verb[]): string => `firnward <verb> [options]

${all.map((verb) => '  ' + (verb.help.split('\n')[0] ?? '')).join('\n')}

Data go to standard output or --out, messages to standard error. A file that stands already is replaced with --force only.
What is doubtful about a line is refused with the answers it takes: --answer GPX-017=cross.
A dash is standard input (--line -, --project -, --at -) or standard output (--out -).
Exit codes: 0 done, 2 bad usage, 3 bad input, 1 a fault of ours.
A planning aid: it judges neither avalanches nor snow bridges, and no figure of it is the probability of an accident.
`;

async function main([name, ...words]: readonly string[]): Promise<number> {
  const asksHelp = name === undefined || name === '--help' || name === '-h' || name === 'help';
  if (asksHelp) {
    await print(helpOf(await Promise.all(Object.values(verbs).map((load) => load()))));
    return name === undefined ? exit.usage : exit.done;
  }
  const load = Object.hasOwn(verbs, name) ? verbs[name] : undefined;
  if (load === undefined) {
    const near = nearestWord(name, Object.keys(verbs));
    const meant = near === null ? `there are ${Object.keys(verbs).join(', ')}` : `did you mean ${near}?`;
    throw new UsageError(`no verb "${name}"; ${meant}`);
  }
  const verb = await load();
  if (words.includes('--help') || words.includes('-h')) {
    await print(`firnward ${verb.help}\n`);
    return exit.done;
  }
  await verb.run(words);
  return exit.done;
}

function leave(error: unknown): void {
  if (error instanceof UsageError) {
    console.error(`firnward: ${error.message.replace(/[^.?]$/, '$&.')} See firnward --help.`);
    process.exitCode = exit.usage;
  } else if (error instanceof ProblemError) {
    console.error(`firnward: ${problemLine(error.problem)}`);
    process.exitCode = exit.input;
  } else if ((error as NodeJS.ErrnoException | null)?.code === 'EPIPE') {
    process.exitCode = exit.done; // whoever read our output has seen enough
  } else {
    console.error(`firnward: a fault of ours: ${error instanceof Error ? error.message : String(error)}`);
    if (process.env['FIRNWARD_TRACE'] !== undefined) console.error(error);
    process.exitCode = exit.fault;
  }
}

/**
 * Called by `firnward.js`, on the main thread and on those that it starts. What has been done ends the process at once: nobody
 * is kept waiting until memory has been swept.
 *
 * @param staysOn for who does several jobs, one after another
 */
export async function start(words: readonly string[], { staysOn = false } = {}): Promise<void> {
  if (words[0] === slipThreadWord) return (await import('./slip-threads')).slipThread();
  process.on('unhandledRejection', (error) => {
    leave(error);
    process.exit();
  });
  try {
    process.exitCode = await main(words);
    if (!staysOn) process.exit();
  } catch (error) {
    leave(error);
  }
}
