import type { Figures } from '../assumptions/figures';
import type { OwnPace, Project } from '../domain/project';
import type { Snow } from '../domain/snow';
import type { Station } from '../domain/station';
import { indexAt, slopeLength } from './on-line';
import { usualPace, walkingFactorAt } from './own-pace';
import {
  altitudeFactor,
  din33466S,
  munterS,
  snowAndRestFactor,
  toblerMS,
  toblerS,
  withoutWiggles,
} from './walking';

export interface WalkOptions {
  readonly stations: readonly Station[];
  readonly fromM: number;
  readonly toM: number;
  readonly snow: Snow;
  readonly figures: Figures;
  readonly own?: OwnPace;
  readonly rule?: Project['walkingRule'];
}

const known = new WeakMap<readonly Station[], { wiggleM: number; elevationM: Float64Array }>();

/** The stations' elevations without small ups and downs; NaN where unknown. Kept per line. */
export function walkedElevationM(stations: readonly Station[], wiggleM: number): Float64Array {
  const found = known.get(stations);
  if (found?.wiggleM === wiggleM) return found.elevationM;
  const elevationM = withoutWiggles(
    stations.map((station) => station.elevationM ?? NaN),
    wiggleM,
  );
  known.set(stations, { wiggleM, elevationM });
  return elevationM;
}

/**
 * Seconds to walk a stretch roped, without rope work: per station by Munter's or Tobler's rule, by DIN 33466 for the stretch
 * as one leg; times snow, rests, height and the team's own pace. NaN where an elevation on it is unknown.
 */
export function walkedS({
  stations,
  fromM,
  toM,
  snow,
  figures,
  own = usualPace,
  rule = 'munter',
}: WalkOptions): number {
  const { walking } = figures;
  const { alongM } = slopeLength(stations);
  const elevationM = walkedElevationM(stations, walking.wiggleM);
  const rate = { up: walking.munterUp, levelOrDown: walking.munterDown };
  const leg = { lengthM: 0, ascentM: 0, descentM: 0 };
  let [sumS, heightWeighted] = [0, 0];

  for (let i = indexAt(alongM, fromM); i < stations.length - 1 && alongM[i]! < toM; i++) {
    const gapM = alongM[i + 1]! - alongM[i]!;
    const lengthM = Math.min(toM, alongM[i + 1]!) - Math.max(fromM, alongM[i]!);
    if (!(gapM > 0) || lengthM <= 0) continue;
    const riseM = ((elevationM[i + 1]! - elevationM[i]!) * lengthM) / gapM;
    const higher = altitudeFactor((elevationM[i]! + elevationM[i + 1]!) / 2, walking);
    if (rule === 'din-33466') {
      leg.lengthM += lengthM;
      leg.ascentM += Math.max(0, riseM);
      leg.descentM += Math.max(0, -riseM);
      if (Number.isNaN(riseM)) leg.ascentM = NaN;
      heightWeighted += higher * lengthM;
    } else {
      const legS = rule === 'munter' ? munterS({ lengthM, riseM }, rate) : toblerS({ lengthM, riseM });
      sumS += higher * legS * walkingFactorAt(own, gradeDegOf(riseM, lengthM));
    }
  }
  if (rule === 'din-33466' && leg.lengthM > 0) {
    const ownFactor = walkingFactorAt(own, gradeDegOf(leg.ascentM + leg.descentM, leg.lengthM));
    sumS = din33466S(leg) * (heightWeighted / leg.lengthM) * ownFactor;
  }
  return sumS * snowAndRestFactor(snow.hardness, walking);
}

const gradeDegOf = (riseM: number, lengthM: number): number => (Math.atan2(riseM, lengthM) * 180) / Math.PI;

/** Seconds a horizontal metre at one grade, by the same rules. NaN where grade or elevation is unknown. */
export function walkedSecondsPerM(
  gradeDeg: number | null,
  elevationM: number | null,
  { snow, figures, own = usualPace, rule = 'munter' }: Omit<WalkOptions, 'stations' | 'fromM' | 'toM'>,
): number {
  if (gradeDeg === null || elevationM === null) return NaN;
  const { walking } = figures;
  const tangent = Math.tan((gradeDeg * Math.PI) / 180);
  const factor =
    altitudeFactor(elevationM, walking) *
    snowAndRestFactor(snow.hardness, walking) *
    walkingFactorAt(own, gradeDeg);
  if (rule === 'tobler') return factor / toblerMS(tangent);
  if (rule === 'din-33466') {
    return factor * din33466S({ lengthM: 1, ascentM: Math.max(0, tangent), descentM: Math.max(0, -tangent) });
  }
  return (
    factor *
    munterS({ lengthM: 1, riseM: tangent }, { up: walking.munterUp, levelOrDown: walking.munterDown })
  );
}
