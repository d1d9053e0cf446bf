import { modes, type Mode } from '../core/domain/mode';
import { paceReport, reportActs, type ReportAct } from '../core/pace/pace-report';
import { readArguments, UsageError, type Arguments } from './arguments';
import { figuresOf } from './figures';
import { required, valueOf } from './inputs';
import { readSettings } from './settings';
import { mayWrite, outOf, writeOut } from './output';

export const paceHelp = `pace --length 300 --mode running-belay [--speed 0.2] [--spacing m] [--project F] [--snow P] [--act place=150 ...] [--last-leads] [--out F]
  Seconds, rotations, gatherings, pieces and stops of one stretch. Acts: ${reportActs.join(', ')}, in seconds.`;

export async function pace(words: readonly string[]): Promise<void> {
  const args = readArguments(
    words,
    {
      length: { type: 'string' },
      mode: { type: 'string' },
      speed: { type: 'string' },
      spacing: { type: 'string' },
      project: { type: 'string' },
      snow: { type: 'string' },
      act: { type: 'string', multiple: true },
      'last-leads': { type: 'boolean' },
    },
    ['act'],
  );
  mayWrite([outOf(args)], args);
  const lengthM = args.number('length', { min: 0, max: 1e6 });
  if (lengthM === null) throw new UsageError('--length is missing: metres');
  const { project } = await readSettings(args);
  const speedMS = args.number('speed', { min: 0.001, max: 10 });
  const spacingM = args.number('spacing', { min: 0.1, max: 1000 });
  const report = valueOf(
    paceReport({
      lengthM,
      mode: modeOf(required(args, 'mode')),
      party: project.party,
      snow: project.snow,
      figures: figuresOf(project),
      own: project.ownPace,
      ...(speedMS === null ? {} : { speedMS }),
      ...(spacingM === null ? {} : { spacingM }),
      actsS: actsOf(args),
      lastLeads: args.flag('last-leads'),
    }),
  );
  await writeOut(JSON.stringify(report, null, 2) + '\n', outOf(args), args);
}

function modeOf(name: string): Mode {
  if (!(modes as readonly string[]).includes(name))
    throw new UsageError(`--mode takes ${modes.join(', ')}; found "${name}"`);
  return name as Mode;
}

function actsOf(args: Arguments): Partial<Record<ReportAct, number>> {
  const acts: Partial<Record<ReportAct, number>> = {};
  for (const text of args.texts('act')) {
    const [, name = '', seconds = ''] = /^(\w+)=(\d+(?:\.\d+)?)$/.exec(text) ?? [];
    if (!(reportActs as readonly string[]).includes(name))
      throw new UsageError(
        `--act takes name=seconds with a name of ${reportActs.join(', ')}; found "${text}"`,
      );
    acts[name as ReportAct] = Number(seconds);
  }
  return acts;
}
