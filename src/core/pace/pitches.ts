import type { Figures } from '../assumptions/figures';
import type { Party } from '../domain/rope-team';
import type { Hardness } from '../domain/snow';
import type { PitchActs } from './acts';
import type { PaceEvent } from './pace-event';

const roundingM = 1e-6;

/** The longest pitch the rope gives, m; not positive where the rope is too short to pitch. */
export function longestPitchM(
  { climbers, rope }: Pick<Party, 'climbers' | 'rope'>,
  { pitch }: Figures,
): number {
  const followersBetween = Math.max(0, climbers.length - 2);
  return Math.min(pitch.maxM, rope.lengthM - pitch.ropeReserveM - pitch.ropePerClimberM * followersBetween);
}

/** Runners at equal distances from the stance, the next stance left out. */
export function runnerCount(pitchM: number, everyM: number): number {
  return Math.max(0, Math.ceil((pitchM - roundingM) / everyM) - 1);
}

/** In hard snow followers climb together on one rope, in softer snow one after the other (judgement). */
export const followersTogether = (hardness: Hardness): boolean =>
  hardness !== 'F' && hardness !== '4F' && hardness !== '1F';

export interface PitchesOptions {
  readonly lengthM: number;
  readonly climbers: number;
  /** Where pitches end, ascending, the stretch's end included. */
  readonly stancesAtM: readonly number[];
  readonly runnerM: number;
  readonly acts: PitchActs;
  readonly together: boolean;
  /** Distance between followers who climb together. */
  readonly apartM: number;
  readonly withoutEvents?: boolean;
}

export interface PitchesRun {
  readonly timeS: number;
  readonly pitches: number;
  readonly stops: number;
  readonly runnersAtM: readonly number[];
  /** Two pieces at each, the first one at the start. */
  readonly anchorsAtM: readonly number[];
  readonly piecesPlaced: number;
  /** The most pieces in the snow at one time. */
  readonly pickets: number;
  readonly events: readonly PaceEvent[];
}

/** Full rope lengths one after the other. */
export function stancesAtRopeEndM(lengthM: number, pitchM: number): number[] {
  const pitches = Math.max(1, Math.ceil((lengthM - roundingM) / pitchM));
  return Array.from({ length: pitches }, (_, i) => Math.min(lengthM, (i + 1) * pitchM));
}

/** Seconds of one pitch, the change-over at its end included, the anchor at its start not. */
export function pitchS(
  pitchM: number,
  options: Pick<PitchesOptions, 'climbers' | 'runnerM' | 'acts' | 'together'>,
): number {
  const { acts, runnerM } = options;
  const runners = runnerCount(pitchM, runnerM);
  const trips = options.together ? 1 : options.climbers - 1;
  return (
    pitchM / acts.leadMS +
    runners * acts.placeS +
    acts.anchorS +
    (trips * pitchM) / acts.followMS +
    runners * acts.removeS +
    acts.changeS
  );
}

/** A stretch in pitches: anchor, then pitch by pitch lead, anchor, followers, change-over; none after the last. */
export function runPitches(options: PitchesOptions): PitchesRun {
  const { acts, climbers, stancesAtM } = options;
  const log: PaceEvent[] = [];
  const runnersAtM: number[] = [];
  let nowS = 0;
  let mostRunners = 0;
  const spend = (who: number, what: PaceEvent['what'], seconds: number, fromM: number, toM = fromM) => {
    if (options.withoutEvents !== true) log.push({ who, what, fromS: nowS, toS: nowS + seconds, fromM, toM });
    nowS += seconds;
  };
  spend(0, 'anchor', acts.anchorS, 0);

  let startM = 0;
  stancesAtM.forEach((endM, index) => {
    const runners = runnerCount(endM - startM, options.runnerM);
    const here = Array.from({ length: runners }, (_, i) => startM + (i + 1) * options.runnerM);
    runnersAtM.push(...here);
    mostRunners = Math.max(mostRunners, runners);

    let leadM = startM;
    for (const atM of here) {
      spend(0, 'walk', (atM - leadM) / acts.leadMS, leadM, atM);
      spend(0, 'place', acts.placeS, atM);
      leadM = atM;
    }
    spend(0, 'walk', (endM - leadM) / acts.leadMS, leadM, endM);
    spend(0, 'anchor', acts.anchorS, endM);
    follow(startM, endM, here);
    if (index < stancesAtM.length - 1) spend(0, 'change', acts.changeS, endM);
    startM = endM;
  });

  return {
    timeS: nowS,
    pitches: stancesAtM.length,
    stops: stancesAtM.length + 1,
    runnersAtM,
    anchorsAtM: [0, ...stancesAtM],
    piecesPlaced: runnersAtM.length + 2 * (stancesAtM.length + 1),
    pickets: 4 + mostRunners,
    events: log,
  };

  function follow(fromM: number, toM: number, runnersM: readonly number[]): void {
    const followers = Array.from({ length: climbers - 1 }, (_, i) => i + 1);
    const trips = options.together ? [followers] : followers.map((who) => [who]);
    trips.forEach((trip, index) => {
      const cleans = index === trips.length - 1;
      const stops = cleans ? [...runnersM, toM] : [toM];
      let hereM = fromM;
      for (const stopM of stops) {
        const seconds = (stopM - hereM) / acts.followMS;
        trip.forEach((who, place) => {
          const behindM = (trip.length - 1 - place) * options.apartM;
          const [a, b] = [
            Math.min(toM, hereM + (hereM > fromM ? behindM : 0)),
            Math.min(toM, stopM + behindM),
          ];
          const event = { who, what: 'follow' as const, fromS: nowS, toS: nowS + seconds, fromM: a, toM: b };
          if (options.withoutEvents !== true) log.push(event);
        });
        nowS += seconds;
        if (stopM < toM) spend(trip.at(-1)!, 'remove', acts.removeS, stopM);
        hereM = stopM;
      }
    });
  }
}
