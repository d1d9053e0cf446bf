import type { Figures } from '../assumptions/figures';
import type { Variant } from '../domain/mode';
import type { Party } from '../domain/rope-team';
import type { Shares, SlipShares } from '../domain/slip-shares';
import type { Snow } from '../domain/snow';
import { simulateShares } from './shares';

/** One mode's figures as written to files: shares of 100 with one decimal, loads with two. */
export type ReportedShares = SlipShares;

export type SlipReport = Readonly<
  Record<'roped' | 'runningBelay' | 'runningBelayCapture' | 'pitchedBelay', ReportedShares>
>;

export interface SlipQuestion {
  readonly party: Party;
  readonly snow: Snow;
  readonly slopeDeg: number;
  readonly betaDeg: number;
  readonly figures: Figures;
  readonly goingDown?: boolean;
}

const reportedVariant: Readonly<Record<keyof SlipReport, Variant>> = {
  roped: 'roped',
  runningBelay: 'running',
  runningBelayCapture: 'running-capture',
  pitchedBelay: 'pitched',
};

/** All modes on one slope, side by side. With capture devices means one on every piece, whatever the rack holds. */
export function slipReport(question: SlipQuestion): SlipReport {
  const report = (key: keyof SlipReport): ReportedShares =>
    rounded(simulateShares({ ...question, variant: reportedVariant[key], allDevices: true }));
  return {
    roped: report('roped'),
    runningBelay: report('runningBelay'),
    runningBelayCapture: report('runningBelayCapture'),
    pitchedBelay: report('pitchedBelay'),
  };
}

function rounded({ bySlipper, leadPulledOff, pieceLoadKN, ...shares }: SlipShares): ReportedShares {
  return {
    ...roundedShares(shares),
    leadPulledOff: round(leadPulledOff, 1),
    bySlipper: bySlipper.map(roundedShares),
    pieceLoadKN: pieceLoadKN && { p50: round(pieceLoadKN.p50, 2), p95: round(pieceLoadKN.p95, 2) },
  };
}

const roundedShares = ({ unheld, itself, ownArrest, mates, piece }: Shares): Shares => ({
  unheld: round(unheld, 1),
  itself: round(itself, 1),
  ownArrest: round(ownArrest, 1),
  mates: round(mates, 1),
  piece: round(piece, 1),
});

const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));
