import type { Figures } from '../assumptions/figures';
import { variantMode, variants, type Variant } from '../domain/mode';
import type { Project } from '../domain/project';
import type { Party } from '../domain/rope-team';
import { hardnesses, type Hardness, type Snow } from '../domain/snow';
import { runOutClasses, type RunOut, type RunOutClass, type Station } from '../domain/station';
import { secondsPerM } from '../pace/seconds-per-m';
import { paceStretch } from '../pace/stretch';

/** What work with the rope takes: for each metre along the slope, and once for a stretch however short. Seconds. */
export interface RopeWork {
  readonly slopeSecondsPerM: number;
  readonly onceS: number;
}

interface RopeWorkCase {
  readonly variant: Variant;
  readonly snow: Snow;
  readonly runOut: RunOutClass;
  /** In its order on the rope. */
  readonly party: Party;
  readonly project: Project;
  readonly figures: Figures;
}

/** Lengths of the stretches that flicker in and out of a mode, metres. */
const shortLengthsM = [5, 10, 15, 20, 30, 40];

/**
 * The works of the team that was asked about last: planning again with the same team, whatever devices it carries, counts nothing
 * twice.
 */
let latest: { readonly question: string; readonly works: Map<number, RopeWork> } = {
  question: '',
  works: new Map(),
};

/**
 * Rope work by case, counted once for each. Which works these are depends on nothing but what is given.
 *
 * @param partyAt the party in its order on the rope, by direction.
 */
export function ropeWorks(project: Project, figures: Figures, partyAt: (goingDown: boolean) => Party) {
  const { ownPace, lastTakesLead } = project;
  const parties = [partyAt(false), partyAt(true)].map(withoutDevices);
  const question = JSON.stringify([parties, figures, ownPace, lastTakesLead]);
  if (latest.question !== question) latest = { question, works: new Map() };
  const { works } = latest;

  return (variant: Variant, snow: Snow, runOut: RunOutClass, goingDown: boolean): RopeWork => {
    const devices = variant === 'running-capture' ? partyAt(goingDown).rack.captureDevices : 0;
    const key =
      (((devices * variants.length + variants.indexOf(variant)) * hardnesses.length +
        hardnesses.indexOf(snow.hardness)) *
        runOutClasses.length +
        runOutClasses.indexOf(runOut)) *
        2 +
      (goingDown ? 1 : 0);
    const found = works.get(key);
    if (found !== undefined) return found;
    const work = ropeWork({ variant, snow, runOut, party: partyAt(goingDown), project, figures });
    works.set(key, work);
    return work;
  };
}

const withoutDevices = (party: Party): Party => ({ ...party, rack: { ...party.rack, captureDevices: 0 } });

/**
 * Belays go in rotations and pitches: a stretch of 5 m needs a whole one, so a short stretch takes far longer than its share
 * of a long one. What it takes once is counted on short stretches of even ground, and averaged.
 */
function ropeWork(which: RopeWorkCase): RopeWork {
  const { variant, snow, runOut, party, project, figures } = which;
  const { ownPace: own, lastTakesLead, walkingRule } = project;
  const slopeSecondsPerM = secondsPerM(variant, {
    snow,
    runOut,
    party,
    figures,
    own,
    lastTakesLead,
    gradeDeg: 0,
    elevationM: 0,
  });
  const stations = evenGround(runOut);
  const onceS = shortLengthsM.map((toM) => {
    const mode = variantMode[variant];
    const { time } = paceStretch({
      mode,
      variant,
      stations,
      fromM: 0,
      toM,
      party,
      figures,
      snow,
      own,
      walkingRule,
      lastTakesLead,
    });
    return time === null ? NaN : time.defaultS - slopeSecondsPerM * toM;
  });
  return { slopeSecondsPerM, onceS: onceS.reduce((sum, s) => sum + s, 0) / onceS.length };
}

const evenStations = new Map<RunOutClass, readonly Station[]>();

function evenGround(runOut: RunOutClass): readonly Station[] {
  const found = evenStations.get(runOut);
  if (found !== undefined) return found;
  const same: RunOut = { class: runOut, ending: 'stops', maxSpeedMS: 0, lengthM: 0, dropM: 0 };
  const byHardness = Object.fromEntries(hardnesses.map((hardness) => [hardness, same])) as Record<
    Hardness,
    RunOut
  >;
  const stations = [0, Math.max(...shortLengthsM)].map((alongM): Station => ({
    alongM,
    position: [0, 0],
    bearingDeg: 0,
    elevationM: 0,
    slopeDeg: 30,
    designSlopeDeg: 30,
    slopeSigmaDeg: 0,
    aspectDeg: 180,
    curvaturePerM: 0,
    gradeDeg: 0,
    betaDeg: 0,
    runOut: byHardness,
    rasterIndex: 0,
  }));
  evenStations.set(runOut, stations);
  return stations;
}
