import type { Station } from '../../../src/core/domain/station';
import { hardnesses } from '../../../src/core/domain/snow';
import type { RunOut, RunOutClass } from '../../../src/core/domain/station';

/** Stations every 5 m along a meridian, straight up an even slope (a negative one goes down). */
export function slopeLine(options: {
  readonly lengthM: number;
  readonly gradeDeg: number;
  readonly fromElevationM?: number;
  readonly runOut?: (alongM: number) => RunOutClass;
  readonly slopeDeg?: (alongM: number) => number;
}): Station[] {
  const { lengthM, gradeDeg, fromElevationM = 0, runOut = () => 'gentle', slopeDeg } = options;
  const count = Math.round(lengthM / 5);
  return Array.from({ length: count + 1 }, (_, i): Station => {
    const alongM = (i * lengthM) / count;
    const below: RunOut = { class: runOut(alongM), ending: 'stops', maxSpeedMS: 3, lengthM: 10, dropM: 5 };
    const steep = slopeDeg?.(alongM) ?? Math.abs(gradeDeg);
    return {
      alongM,
      position: [-20, 30 + alongM / 111_000],
      bearingDeg: 0,
      elevationM: fromElevationM + alongM * Math.tan((gradeDeg * Math.PI) / 180),
      slopeDeg: steep,
      designSlopeDeg: steep,
      slopeSigmaDeg: 1,
      aspectDeg: 180,
      curvaturePerM: 0,
      gradeDeg,
      betaDeg: 0,
      runOut: Object.fromEntries(hardnesses.map((h) => [h, below])) as Station['runOut'] & object,
      rasterIndex: 0,
    };
  });
}
