import type { Figures } from '../assumptions/figures';
import type { Variant } from '../domain/mode';
import type { OwnPace, Project } from '../domain/project';
import type { Party } from '../domain/rope-team';
import type { Snow } from '../domain/snow';
import type { RunOutClass } from '../domain/station';
import { belayActs, pitchActs, runningSpeedMS } from './acts';
import { followersTogether, longestPitchM, pitchS } from './pitches';
import { isRunning, lastMayLead, runningTeam } from './rope-team';
import { reachM } from './belay-options';
import { rotationS } from './rotation-time';
import { walkedSecondsPerM } from './walked';

export interface PlacePace {
  readonly snow: Snow;
  /** Along the line, signed. null: unknown. */
  readonly gradeDeg: number | null;
  readonly elevationM: number | null;
  readonly party: Party;
  readonly figures: Figures;
  readonly own?: OwnPace;
  readonly rule?: Project['walkingRule'];
  readonly lastTakesLead?: boolean;
  /** Decides on how many pieces gatherings stand. Absent: not deadly. */
  readonly runOut?: RunOutClass | null;
}

/** Seconds that a long stretch takes for each metre along the slope, and once for the whole of it. */
interface RopeWork {
  readonly perSlopeM: number;
  readonly onceS: number;
}

/**
 * Default seconds a horizontal metre in a variant, as the mean over a long stretch: for choosing a sequence of modes. NaN where
 * no time can be given.
 */
export function secondsPerM(variant: Variant, place: PlacePace): number {
  if (variant === 'roped') return walkedSecondsPerM(place.gradeDeg, place.elevationM, place);
  if (place.gradeDeg === null) return NaN;
  return ropeWork(variant, place).perSlopeM / Math.cos((place.gradeDeg * Math.PI) / 180);
}

/** Default seconds that a stretch takes once, however long it is: first and last piece, first anchor. 0 for roped travel. */
export function onceS(variant: Variant, place: Omit<PlacePace, 'gradeDeg' | 'elevationM'>): number {
  return variant === 'roped' ? 0 : ropeWork(variant, place).onceS;
}

const known = new WeakMap<Party, WeakMap<Figures, Map<string, RopeWork>>>();

function ropeWork(variant: Variant, place: Omit<PlacePace, 'gradeDeg' | 'elevationM'>): RopeWork {
  const { party, figures, snow, own, runOut, lastTakesLead } = place;
  const byFigures = known.get(party) ?? new WeakMap<Figures, Map<string, RopeWork>>();
  known.set(party, byFigures);
  const byCase = byFigures.get(figures) ?? new Map<string, RopeWork>();
  byFigures.set(figures, byCase);
  const key = [
    variant,
    snow.hardness,
    runOut === 'deadly' || runOut === null,
    lastTakesLead === true,
    own?.walkingFactor ?? 1,
    own?.placementFactor ?? 1,
  ].join();
  let work = byCase.get(key);
  if (work === undefined)
    byCase.set(key, (work = isRunning(variant) ? runningWork(variant, place) : pitchedWork(place)));
  return work;
}

const none: RopeWork = { perSlopeM: NaN, onceS: NaN };

function runningWork(variant: Variant, place: Omit<PlacePace, 'gradeDeg' | 'elevationM'>): RopeWork {
  const { party, figures, snow, own, runOut } = place;
  const team = runningTeam(variant, party);
  const acts = belayActs(snow, figures, 'usual', own);
  if (team === null || acts === null) return none;
  const deadly = runOut === 'deadly' || runOut === null;
  const pieces = deadly && team.pickets >= 3 ? 2 : 1;
  const lengthM = reachM(team, pieces);
  const speedMS = runningSpeedMS(figures, 'usual', own);
  const lastLeads = lastMayLead(party, place.lastTakesLead === true);
  const options = { ...team, lengthM, speedMS, acts, lastLeads };
  const handoverS = lastLeads ? 0 : acts.handoverS;
  return {
    perSlopeM: rotationS(options, lengthM, { atStart: pieces, atEnd: pieces }) / lengthM,
    onceS: pieces * (acts.placeS + acts.removeS) - handoverS,
  };
}

function pitchedWork({ party, figures, snow, own }: Omit<PlacePace, 'gradeDeg' | 'elevationM'>): RopeWork {
  const pitchM = longestPitchM(party, figures);
  const acts = pitchActs(snow, figures, 'usual', own);
  if (acts === null || pitchM < 1 || party.climbers.length < 2) return none;
  const together = followersTogether(snow.hardness);
  const options = { climbers: party.climbers.length, runnerM: figures.pitch.runnerM, acts, together };
  return { perSlopeM: pitchS(pitchM, options) / pitchM, onceS: acts.anchorS - acts.changeS };
}
