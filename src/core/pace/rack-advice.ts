import { paceStretch } from './stretch';
import type { StretchGathering, StretchInput } from './stretch-input';

/** The running belays of a plan with so many pickets. */
export interface RackRow {
  readonly pickets: number;
  /** Default seconds of all running belays; null where one has no time. */
  readonly timeS: number | null;
  readonly gatherings: number;
  /** Of these, in bad places, ends of stretches left out: they can't be moved. */
  readonly badGatherings: number;
  /** Gatherings above a deadly or unknown run-out with the whole team on one piece: too few are carried for two. */
  readonly onOnePiece: number;
}

export interface RackAdvice {
  readonly rows: readonly RackRow[];
  /** Fewest pickets with which no gathering on the way is in a bad place; null if none of those asked about does. */
  readonly fewestWithoutBad: number | null;
}

/** The whole team on a single piece above a deadly or an unknown run-out. */
export const hangsOnOnePiece = ({ pieces, runOut }: StretchGathering): boolean =>
  pieces < 2 && (runOut === 'deadly' || runOut === null);

/** Time and gatherings against the number of pickets carried. Stretches in other modes don't depend on it and are left out. */
export function rackAdvice(stretches: readonly StretchInput[], pickets: readonly number[]): RackAdvice {
  const running = stretches.filter(({ mode }) => mode === 'running-belay');
  const rows = pickets.map((count) => rackRow(running, count));
  const good = rows.filter(({ badGatherings, timeS }) => badGatherings === 0 && timeS !== null);
  return { rows, fewestWithoutBad: good.length === 0 ? null : Math.min(...good.map((row) => row.pickets)) };
}

function rackRow(running: readonly StretchInput[], pickets: number): RackRow {
  let timeS: number | null = 0;
  let [gatherings, badGatherings, onOnePiece] = [0, 0, 0];
  for (const stretch of running) {
    const { party } = stretch;
    const pace = paceStretch({ ...stretch, party: { ...party, rack: { ...party.rack, pickets } } });
    timeS = timeS === null || pace.time === null ? null : timeS + pace.time.defaultS;
    gatherings += pace.gatherings.length;
    badGatherings += pace.gatherings.slice(0, -1).filter(({ bad }) => bad).length;
    onOnePiece += pace.gatherings.filter(hangsOnOnePiece).length;
  }
  return { pickets, timeS, gatherings, badGatherings, onOnePiece };
}

/** The whole plan with and without capture devices on the rack. */
export interface DeviceComparison {
  /** Default seconds; null where the plan has no time for the whole line. */
  readonly withoutS: number | null;
  readonly withS: number | null;
  /** Metres where nothing holds or no mode was found. */
  readonly noneWithoutM: number;
  readonly noneWithM: number;
}

export interface DeviceAdvice {
  readonly worth: boolean;
  readonly reason: string;
}

/** Whether capture devices are worth carrying on this line, and why. */
export function deviceAdvice({ withoutS, withS, noneWithoutM, noneWithM }: DeviceComparison): DeviceAdvice {
  const gainedM = noneWithoutM - noneWithM;
  if (gainedM >= 1) {
    return { worth: true, reason: `with devices a mode holds on ${gainedM.toFixed(0)} m more` };
  }
  if (withoutS === null || withS === null) {
    return { worth: false, reason: 'no time for the whole line, so devices cannot be compared' };
  }
  const savedMin = Math.round((withoutS - withS) / 60);
  if (savedMin >= 5) return { worth: true, reason: `with devices the line takes ${savedMin} min less` };
  return {
    worth: false,
    reason: savedMin > 0 ? `devices save only ${savedMin} min here` : 'devices save no time here',
  };
}
