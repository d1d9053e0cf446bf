import { modes, variants, type Variant } from '../core/domain/mode';
import type { Decision, Plan } from '../core/domain/segment';
import type { Station } from '../core/domain/station';
import { packStations, stationBuffers, unpackStations, type StationColumns } from './profile-columns';

/** Decisions as typed columns, one for each station; see StationColumns for why. */
export interface DecisionColumns {
  readonly mode: Uint8Array<ArrayBuffer>;
  readonly variant: Uint8Array<ArrayBuffer>;
  readonly overridden: Uint8Array<ArrayBuffer>;
  /** Bit v: variants[v] is allowed. */
  readonly allowed: Uint8Array<ArrayBuffer>;
  readonly tolerancePct: Float64Array<ArrayBuffer>;
  /** For each station and variant; NaN where it was not looked at. */
  readonly unheldPct: Float64Array<ArrayBuffer>;
  /** Index into `reasons`. */
  readonly reason: Uint32Array<ArrayBuffer>;
  readonly reasons: readonly string[];
}

export interface PlanColumns extends Omit<Plan, 'stations' | 'decisions'> {
  /** null: the stations of the profile it was made from. */
  readonly stations: StationColumns | null;
  readonly decisions: DecisionColumns;
}

const none = 255;

export function packDecisions(decisions: readonly Decision[]): DecisionColumns {
  const count = decisions.length;
  const reasonIndex = new Map<string, number>();
  const columns = {
    mode: new Uint8Array(count),
    variant: new Uint8Array(count),
    overridden: new Uint8Array(count),
    allowed: new Uint8Array(count),
    tolerancePct: new Float64Array(count),
    unheldPct: new Float64Array(count * variants.length).fill(NaN),
    reason: new Uint32Array(count),
  };
  decisions.forEach((decision, i) => {
    columns.mode[i] = modes.indexOf(decision.mode);
    columns.variant[i] = decision.variant === null ? none : variants.indexOf(decision.variant);
    columns.overridden[i] = Number(decision.overridden);
    columns.allowed[i] = decision.allowed.reduce(
      (bits, variant) => bits | (1 << variants.indexOf(variant)),
      0,
    );
    columns.tolerancePct[i] = decision.tolerancePct ?? NaN;
    for (const [v, variant] of variants.entries())
      columns.unheldPct[i * variants.length + v] = decision.unheldPct[variant] ?? NaN;
    const known = reasonIndex.get(decision.reason) ?? reasonIndex.size;
    reasonIndex.set(decision.reason, known);
    columns.reason[i] = known;
  });
  return { ...columns, reasons: [...reasonIndex.keys()] };
}

export function unpackDecisions(columns: DecisionColumns): Decision[] {
  return Array.from(columns.mode, (modeIndex, i): Decision => {
    const mode = modes[modeIndex];
    if (mode === undefined) throw new Error(`No mode ${modeIndex}`);
    const tolerancePct = columns.tolerancePct[i] ?? NaN;
    const bits = columns.allowed[i] ?? 0;
    return {
      mode,
      variant: variants[columns.variant[i] ?? none] ?? null,
      overridden: columns.overridden[i] === 1,
      reason: columns.reasons[columns.reason[i] ?? 0] ?? '',
      tolerancePct: Number.isNaN(tolerancePct) ? null : tolerancePct,
      get allowed() {
        return variants.filter((_, v) => (bits & (1 << v)) !== 0);
      },
      get unheldPct() {
        const shares: Partial<Record<Variant, number>> = {};
        for (const [v, variant] of variants.entries()) {
          const share = columns.unheldPct[i * variants.length + v] ?? NaN;
          if (!Number.isNaN(share)) shares[variant] = share;
        }
        return shares;
      },
    };
  });
}

/** @param profileStations the stations the plan was made from: not sent again where the plan kept them. */
export const packPlan = (plan: Plan, profileStations: readonly Station[]): PlanColumns => ({
  ...plan,
  stations: plan.stations === profileStations ? null : packStations(plan.stations),
  decisions: packDecisions(plan.decisions),
});

export const unpackPlan = (columns: PlanColumns, profileStations: readonly Station[]): Plan => ({
  ...columns,
  stations: columns.stations === null ? profileStations : unpackStations(columns.stations),
  decisions: unpackDecisions(columns.decisions),
});

export const planBuffers = ({ stations, decisions }: PlanColumns): ArrayBuffer[] => [
  ...(stations === null ? [] : stationBuffers(stations)),
  decisions.mode.buffer,
  decisions.variant.buffer,
  decisions.overridden.buffer,
  decisions.allowed.buffer,
  decisions.tolerancePct.buffer,
  decisions.unheldPct.buffer,
  decisions.reason.buffer,
];
