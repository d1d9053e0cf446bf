import type { LinePoint } from '../domain/project';
import type { Plan } from '../domain/segment';
import type { Station } from '../domain/station';
import { bearingDeg, distanceM } from '../line/geodesic';
import { simplifyLine } from '../line/simplify';
import { bearingText, lengthText, stretchText } from '../wording/numbers';
import { digits, unknownText, thin } from '../wording/numbers';
import { metresPerFoot, type Units } from '../wording/units';
import type { Declination } from './declination';

/** A straight leg to walk by compass. */
export interface WhiteoutLeg {
  readonly number: string;
  readonly stretch: string;
  readonly trueBearing: string;
  /** null: no declination to compute it with. */
  readonly magneticBearing: string | null;
  readonly distance: string;
  readonly height: string;
}

export interface Whiteout {
  readonly legs: readonly WhiteoutLeg[];
  /** The line lies within this of the legs. */
  readonly asideText: string;
}

const mostLegs = 24;
const tolerancesM = [5, 10, 15, 20, 30, 50, 80, 120, 200];

/** The line as few straight legs; the tolerance grows until no more than two dozen are left. */
export function whiteout(
  { stations }: Pick<Plan, 'stations'>,
  declination: Declination | null,
  units: Units,
): Whiteout {
  const points = stations.map((station): LinePoint & { station: Station } => ({
    position: station.position,
    elevationM: station.elevationM,
    timeMs: null,
    station,
  }));
  let corners = points;
  let asideM = 0;
  for (const toleranceM of tolerancesM) {
    // The simplified points are some of the given ones, so that their stations are still at hand.
    const kept = new Set(simplifyLine(points, toleranceM));
    corners = points.filter((point) => kept.has(point));
    asideM = toleranceM;
    if (corners.length - 1 <= mostLegs) break;
  }
  const legs = corners
    .slice(1)
    .map((end, i) => legOf(i + 1, corners[i]!.station, end.station, declination, units));
  return { legs, asideText: lengthText(asideM, units) };
}

function legOf(
  number: number,
  from: Station,
  to: Station,
  declination: Declination | null,
  units: Units,
): WhiteoutLeg {
  const trueDeg = bearingDeg(from.position, to.position);
  const riseM = from.elevationM === null || to.elevationM === null ? null : to.elevationM - from.elevationM;
  return {
    number: digits(number),
    stretch: stretchText(from.alongM, to.alongM, units),
    trueBearing: bearingText(trueDeg),
    magneticBearing: declination?.isUsable === true ? bearingText(trueDeg - declination.deg) : null,
    distance: lengthText(distanceM(from.position, to.position), units),
    height: heightText(riseM, units),
  };
}

function heightText(riseM: number | null, units: Units): string {
  if (riseM === null) return unknownText;
  const rise = Math.round(units === 'metric' ? riseM : riseM / metresPerFoot);
  const unit = units === 'metric' ? 'm' : 'ft';
  return `${rise > 0 ? '+' : ''}${digits(rise)}${thin}${unit}`;
}
