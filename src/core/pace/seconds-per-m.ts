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

/**
 * Default seconds a horizontal metre in a variant, as the mean over a long stretch: for choosing a sequence of modes. NaN where
 * no time can be given.
 */
export function secondsPerM(variant: Variant, place: PlacePace): number {
  if (variant === 'roped') return walkedSecondsPerM(place.gradeDeg, place.elevationM, place);
  if (place.gradeDeg === null) return NaN;
  return secondsPerSlopeM(variant, place) / Math.cos((place.gradeDeg * Math.PI) / 180);
}

type RopePace = Omit<PlacePace, 'gradeDeg' | 'elevationM'>;

const known = new WeakMap<Party, WeakMap<Figures, Map<string, number>>>();

function secondsPerSlopeM(variant: Variant, place: RopePace): number {
  const { party, figures, snow, own, runOut, lastTakesLead } = place;
  const byFigures = known.get(party) ?? new WeakMap<Figures, Map<string, number>>();
  known.set(party, byFigures);
  const byCase = byFigures.get(figures) ?? new Map<string, number>();
  byFigures.set(figures, byCase);
  const key = [
    variant,
    snow.hardness,
    runOut === 'deadly' || runOut === null,
    lastTakesLead === true,
    own?.walkingFactor ?? 1,
    own?.placementFactor ?? 1,
  ].join();
  let seconds = byCase.get(key);
  if (seconds === undefined) {
    seconds = isRunning(variant) ? runningSecondsPerM(variant, place) : pitchedSecondsPerM(place);
    byCase.set(key, seconds);
  }
  return seconds;
}

/** Full rotations one after the other. */
function runningSecondsPerM(variant: Variant, place: RopePace): number {
  const { party, figures, snow, own, runOut } = place;
  const team = runningTeam(variant, party);
  const acts = belayActs(snow, figures, 'usual', own);
  if (team === null || acts === null) return NaN;
  const deadly = runOut === 'deadly' || runOut === null;
  const pieces = deadly && team.pickets >= 3 ? 2 : 1;
  const lengthM = reachM(team, pieces);
  const speedMS = runningSpeedMS(figures, 'usual', own);
  const lastLeads = lastMayLead(party, place.lastTakesLead === true);
  const options = { ...team, lengthM, speedMS, acts, lastLeads };
  return rotationS(options, lengthM, { atStart: pieces, atEnd: pieces }) / lengthM;
}

/** Pitches of the length that costs least, one after the other: just short of one more runner. */
function pitchedSecondsPerM({ party, figures, snow, own }: RopePace): number {
  const pitchM = longestPitchM(party, figures);
  const acts = pitchActs(snow, party.climbers.length, figures, 'usual', own);
  if (acts === null || pitchM < 1 || party.climbers.length < 2) return NaN;
  const together = followersTogether(snow.hardness);
  const options = { climbers: party.climbers.length, runnerM: figures.pitch.runnerM, acts, together };
  const { runnerM } = figures.pitch;
  const withoutAnotherM = Math.floor(pitchM / runnerM) * runnerM;
  const lengthsM = withoutAnotherM > 0 ? [pitchM, withoutAnotherM] : [pitchM];
  return Math.min(...lengthsM.map((lengthM) => pitchS(lengthM, options) / lengthM));
}
