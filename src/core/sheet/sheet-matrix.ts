import { modeName, type Mode, type Variant } from '../domain/mode';
import type { ConditionMatrix, MatrixCell, Plan } from '../domain/segment';
import { hardnessName, type Snow } from '../domain/snow';
import { digits } from '../wording/numbers';
import { durationText } from '../wording/time';
import { modeCode } from './mode-pattern';
import type { SheetMatrix } from './sheet-data';

/** Mode and variant in a few letters. */
export function shortCode(mode: Mode, variant: Variant | null): string {
  if (mode !== 'running-belay') return modeCode[mode];
  return modeCode[mode] + (variant === 'running-capture' ? 'd' : variant === 'running-double' ? '2' : '');
}

const key = [
  ...(['roped', 'running-belay', 'pitched-belay', 'belayed-crossing', 'none-holds', 'no-data'] as const).map(
    (mode) => `${modeCode[mode]} ${modeName[mode]}`,
  ),
  'RB2 two pieces per interval',
  'RBd with capture devices',
  '+ the most protective part: parts of it need less',
  '≥ not computed to the end',
].join(' · ');

/** The mode of every segment under every hardness, in letters; with capture devices where they are carried, else without. */
export function sheetMatrix(
  matrix: ConditionMatrix,
  plan: Pick<Plan, 'segments'>,
  snow: Snow,
  hasDevices: boolean,
): SheetMatrix {
  const columns = matrix.columns.filter(({ captureDevices }) => captureDevices === hasDevices);
  return {
    columns: columns.map(({ hardness }) => ({
      hardness: hardnessName[hardness],
      isPlanned: hardness === snow.hardness,
    })),
    rows: plan.segments.map((segment) => ({
      number: digits(segment.id),
      cells: columns.map((column) => cellText(column.cells.find((cell) => cell.segmentId === segment.id))),
    })),
    totals: columns.map(({ totals }) => {
      const atLeast = totals.notComputedBeyondM === null ? '' : '≥ ';
      return `${atLeast}${durationText(totals.time.defaultS)}`;
    }),
    key,
  };
}

function cellText(cell: MatrixCell | undefined): string {
  if (!cell) return '—';
  const isMixed = cell.parts.some((part) => part.mode !== cell.mode || part.variant !== cell.variant);
  return shortCode(cell.mode, cell.variant) + (isMixed ? '+' : '');
}
