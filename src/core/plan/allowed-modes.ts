import type { Figures } from '../assumptions/figures';
import { variants, type Variant } from '../domain/mode';
import type { Project, Tolerance } from '../domain/project';
import type { Snow } from '../domain/snow';
import type { RunOutClass } from '../domain/station';
import type { SlipLookup } from './slip-lookup';
import { tolerancePct } from './tolerance';

/** What decides, at one place, which modes may stand there. */
export interface Place {
  /** null: no ground data. */
  readonly designSlopeDeg: number | null;
  readonly slopeSigmaDeg: number | null;
  readonly betaDeg: number | null;
  readonly runOut: RunOutClass;
  readonly snow: Snow;
  readonly goingDown: boolean;
  readonly onRock: boolean;
}

/** What decides everywhere on the line. */
export interface Rules {
  readonly climbers: number;
  readonly pickets: number;
  readonly captureDevices: number;
  readonly lowStretch: boolean;
  readonly tolerance: Tolerance;
  readonly figures: Figures;
}

export function rulesOf({ party, tolerance }: Project, figures: Figures): Rules {
  return {
    climbers: party.climbers.length,
    pickets: party.rack.pickets,
    captureDevices: party.rack.captureDevices,
    lowStretch: party.rope.lowStretch,
    tolerance,
    figures,
  };
}

/** The rule that had the last word. */
export type Rule = 'no-data' | 'alone' | 'rock' | 'too-steep' | 'bare-ice' | 'easy-ice' | 'easy' | 'shares';

/** Why a variant is not even tried. */
export type Bar =
  | 'two-pieces'
  | 'three-pieces'
  | 'four-pieces'
  | 'no-device'
  | 'device-going-down'
  | 'low-stretch'
  | 'pitched-only';

export interface Choice {
  readonly rule: Rule;
  /** In the order of time. Empty: nothing may stand here. */
  readonly allowed: readonly Variant[];
  /** Of 100 modelled slips, by variant looked at. */
  readonly unheldPct: Readonly<Partial<Record<Variant, number>>>;
  /** null where no shares were compared. */
  readonly tolerancePct: number | null;
  readonly barred: Readonly<Partial<Record<Variant, Bar>>>;
}

const nothing = (rule: Rule): Choice => ({
  rule,
  allowed: [],
  unheldPct: {},
  tolerancePct: null,
  barred: {},
});

/**
 * Which variants may stand at a place: the share of slips left unheld is within what the run-out allows. Floors and
 * ceilings that shares cannot override are common practice.
 *
 * @param upTo 'first' looks no further than the quickest variant that may stand.
 */
export function choicesAt(
  place: Place,
  rules: Rules,
  lookup: SlipLookup,
  upTo: 'all' | 'first' = 'all',
): Choice {
  const { rule } = rules.figures;
  const slopeDeg = place.designSlopeDeg;
  if (slopeDeg === null || Number.isNaN(slopeDeg)) return nothing('no-data');
  if (rules.climbers < 2) return nothing('alone');
  if (slopeDeg > rule.noneAboveDeg) return nothing('too-steep');
  const bareIce = place.snow.hardness === 'I';
  if (bareIce && slopeDeg > rule.iceRopedUpToDeg) return nothing('bare-ice');
  const easy = slopeDeg < rule.ropedAlwaysBelowDeg;
  if (place.onRock && !easy) return nothing('rock');

  const mayPct = tolerancePct(place.runOut, slopeDeg, rules.tolerance, rule);
  const barred: Partial<Record<Variant, Bar>> = {};
  const unheld: Partial<Record<Variant, number>> = {};
  const allowed: Variant[] = [];
  for (const variant of variants) {
    const bar = barOn(variant, place, slopeDeg, rules);
    if (bar !== null) {
      barred[variant] = bar;
      continue;
    }
    // On ice floors decide; its figures are shown where there are tables for it.
    if (bareIce && !lookup.knows(place.snow)) {
      if (variant === 'roped') allowed.push(variant);
      continue;
    }
    const pct = lookup.unheldAt({
      snow: place.snow,
      variant,
      slopeDeg,
      slopeSigmaDeg: place.slopeSigmaDeg ?? 0,
      betaDeg: place.betaDeg ?? 0,
      goingDown: place.goingDown,
    });
    unheld[variant] = pct;
    const within = pct <= mayPct + 1e-9;
    const stands = variant === 'roped' ? easy || bareIce || within : !bareIce && within;
    if (stands) allowed.push(variant);
    if (stands && upTo === 'first') break;
  }
  return {
    rule: bareIce ? 'easy-ice' : easy ? 'easy' : 'shares',
    allowed,
    unheldPct: unheld,
    tolerancePct: mayPct,
    barred,
  };
}

/** Rules that bar a variant whatever its share. */
function barOn(variant: Variant, { goingDown, runOut }: Place, slopeDeg: number, rules: Rules): Bar | null {
  const pitchedOnly = slopeDeg >= rules.figures.rule.pitchedOnlyFromDeg;
  if (variant !== 'pitched' && pitchedOnly) return 'pitched-only';
  if (variant === 'roped') return null;
  // A fall of the one who leads onto a piece would be caught far too hard.
  if (rules.lowStretch) return 'low-stretch';
  // An anchor is two pieces.
  if (rules.pickets < 2) return 'two-pieces';
  // With two, the lead gathers the team after half an interval: there are never two pieces between neighbours.
  if (variant === 'running-double' && rules.pickets < 3) return 'three-pieces';
  // Above a deadly run-out two of them stay in the stance: the same with three.
  if (variant === 'running-double' && rules.pickets < 4 && runOut === 'deadly') return 'four-pieces';
  if (variant === 'running-capture' && rules.captureDevices < 1) return 'no-device';
  if (variant === 'running-capture' && goingDown) return 'device-going-down';
  return null;
}
