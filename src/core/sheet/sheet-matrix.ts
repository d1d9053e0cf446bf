import type { Mode, Variant } from '../domain/mode';
import type { ConditionMatrix, MatrixCell, Plan } from '../domain/segment';
import { hardnessName, type Snow } from '../domain/snow';
import { digits, notComputedBrief } from '../wording/numbers';
import { modeCode } from './mode-pattern';
import type { SheetMatrix } from './sheet-data';

/** Mode and variant in a few letters. */
export function shortCode(mode: Mode, variant: Variant | null): string {
  if (mode !== 'running-belay') return modeCode[mode];
  return modeCode[mode] + (variant === 'running-capture' ? 'd' : variant === 'running-double' ? '2' : '');
}

/** What the signs beside the letters mean. */
export const matrixKey =
  'RB2: two pieces per interval. RBd: with capture devices. +: the most protective part, parts need less. ≥: not computed to the end.';

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
      symbol: hardness,
      hardness: hardnessName[hardness],
      isPlanned: hardness === snow.hardness,
    })),
    rows: plan.segments.map((segment) => ({
      number: digits(segment.id),
      cells: columns.map((column) => cellText(column.cells.find((cell) => cell.segmentId === segment.id))),
    })),
    totals: columns.map(({ totals }) => {
      const atLeast = totals.notComputedBeyondM === null ? '' : '≥';
      return `${atLeast}${hoursText(totals.time.defaultS)}`;
    }),
  };
}

/** `4:05`: hours and minutes where a column is narrow. */
function hoursText(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${digits(Math.floor(minutes / 60))}:${String(minutes % 60).padStart(2, '0')}`;
}

function cellText(cell: MatrixCell | undefined): string {
  if (!cell) return notComputedBrief;
  const isMixed = cell.parts.some((part) => part.mode !== cell.mode || part.variant !== cell.variant);
  return shortCode(cell.mode, cell.variant) + (isMixed ? '+' : '');
}
