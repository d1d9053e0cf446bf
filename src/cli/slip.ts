import { slipReport } from '../core/slip/slip-report';
import { readArguments, UsageError } from './arguments';
import { figuresOf } from './figures';
import { readSettings } from './settings';
import { mayWrite, outOf, writeOut } from './output';

export const slipHelp = `slip --slope 30 [--snow P] [--beta 0] [--project F] [--out F]
  Of 100 modelled slips, how many each technique holds. A comparison of techniques, never the probability of an accident.`;

export async function slip(words: readonly string[]): Promise<void> {
  const args = readArguments(words, {
    slope: { type: 'string' },
    snow: { type: 'string' },
    beta: { type: 'string' },
    project: { type: 'string' },
  });
  mayWrite([outOf(args)], args);
  const slopeDeg = args.number('slope', { min: 0, max: 90 });
  if (slopeDeg === null) throw new UsageError('--slope is missing: degrees');
  const { project } = await readSettings(args);
  const report = slipReport({
    party: project.party,
    snow: project.snow,
    slopeDeg,
    betaDeg: args.number('beta', { min: 0, max: 180 }) ?? 0,
    figures: figuresOf(project),
  });
  await writeOut(JSON.stringify(report, null, 2) + '\n', outOf(args), args);
}
