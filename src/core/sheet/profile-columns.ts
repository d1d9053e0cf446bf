import type { Plan } from '../domain/segment';
import type { Station } from '../domain/station';
import type { Course } from './drawn-line';

/** Stations and decisions as columns, made once per plan. NaN where unknown. */
export interface ProfileColumns {
  readonly elevationM: Course;
  /** Design slope, and one standard deviation to both sides. */
  readonly slopeDeg: Course;
  readonly slopeLowDeg: Course;
  readonly slopeHighDeg: Course;
  /** Of 100 modelled slips in the chosen technique, how many stay unheld; and how many may. */
  readonly unheldPct: Course;
  readonly tolerancePct: Course;
}

export function profileColumns({
  stations,
  decisions,
}: Pick<Plan, 'stations' | 'decisions'>): ProfileColumns {
  const alongM = Float64Array.from(stations, (s) => s.alongM);
  const course = (value: (station: Station, i: number) => number | null | undefined): Course => ({
    alongM,
    value: Float64Array.from(stations, (s, i) => value(s, i) ?? NaN),
  });
  const aside = (sign: number) =>
    course((s) =>
      s.designSlopeDeg === null || s.slopeSigmaDeg === null
        ? null
        : Math.max(0, s.designSlopeDeg + sign * s.slopeSigmaDeg),
    );
  return {
    elevationM: course((s) => s.elevationM),
    slopeDeg: course((s) => s.designSlopeDeg),
    slopeLowDeg: aside(-1),
    slopeHighDeg: aside(1),
    unheldPct: course((_, i) => {
      const decision = decisions[i];
      return decision?.variant ? decision.unheldPct[decision.variant] : null;
    }),
    tolerancePct: course((_, i) => decisions[i]?.tolerancePct),
  };
}

/** Least and most of the known values between two distances; null if none is known. */
export function rangeOf(course: Course, fromM: number, toM: number): readonly [number, number] | null {
  let least = Infinity;
  let most = -Infinity;
  course.alongM.forEach((at, i) => {
    const value = course.value[i]!;
    if (at < fromM || at > toM || Number.isNaN(value)) return;
    least = Math.min(least, value);
    most = Math.max(most, value);
  });
  return least <= most ? [least, most] : null;
}
