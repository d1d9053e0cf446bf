import type { OwnPace } from '../domain/project';
import type { Segment } from '../domain/segment';
import type { Station } from '../domain/station';
import type { TrackPoint } from '../domain/track';
import { matchTrack, passingTimeMs } from './match-track';
import { gradeClassesDeg, walkingFactorAt } from './own-pace';

export interface SegmentAfterwards {
  readonly segmentId: number;
  readonly plannedS: number | null;
  /** null where the track does not pass the whole segment. */
  readonly realS: number | null;
}

/** Planned against real where people walked, by the grade of the way. */
export interface GradeClassPace {
  readonly fromDeg: number;
  readonly toDeg: number;
  readonly plannedS: number;
  readonly realS: number;
  /** The team's own factor here as this day suggests it; null where under ten minutes were matched. */
  readonly suggested: number | null;
}

export interface Afterwards {
  readonly segments: readonly SegmentAfterwards[];
  /** Roped travel only. */
  readonly byGrade: readonly GradeClassPace[];
  /** Seconds for one piece, all work with it and its share of the gatherings; null where no running belay was matched. */
  readonly perPieceS: { readonly plannedS: number; readonly realS: number } | null;
  /** The team's own factors as this day suggests them; null where under ten minutes were matched. */
  readonly suggested: { readonly walkingFactor: number | null; readonly placementFactor: number | null };
  /** Share of the track's timed points that lie on the line. */
  readonly matchedPct: number;
}

const leastS = 600;
/** Beyond these it is a rest or a mistake, no pace. */
const [leastFactor, mostFactor] = [0.3, 4];

/** Lays a recorded track over the plan's segments: what each took, and what factors would have foretold it. */
export function afterwards(
  track: readonly TrackPoint[],
  { stations, segments, own }: { stations: readonly Station[]; segments: readonly Segment[]; own: OwnPace },
): Afterwards {
  const matched = matchTrack(track, stations);
  const realS = segments.map(({ fromM, toM }) => {
    const [fromMs, toMs] = [
      passingTimeMs(matched, fromM, 'leaving'),
      passingTimeMs(matched, toM, 'arriving'),
    ];
    return fromMs === null || toMs === null || toMs < fromMs ? null : (toMs - fromMs) / 1000;
  });
  const pairs = segments.flatMap((segment, i) => {
    const real = realS[i];
    return real === null || real === undefined || segment.time === null || segment.parts === null
      ? []
      : [{ segment, parts: segment.parts, plannedS: segment.time.defaultS, realS: real }];
  });

  const walked = pairs.filter(({ segment }) => segment.mode === 'roped');
  const walkedPlannedS = sum(walked.map(({ plannedS }) => plannedS));
  const walkingRatio =
    walkedPlannedS < leastS ? null : held(sum(walked.map((pair) => pair.realS)) / walkedPlannedS);

  const belayed = pairs.filter(({ segment }) => segment.mode === 'running-belay');
  const workPlannedS = sum(belayed.map(({ parts }) => parts.placementS + parts.gatheringS));
  const workRealS = sum(
    belayed.map(({ parts, realS: real }) => real - parts.transitionS - parts.walkingS * (walkingRatio ?? 1)),
  );
  const pieces = sum(belayed.map(({ segment }) => segment.pieces.length));
  return {
    segments: segments.map(({ id, time }, i) => ({
      segmentId: id,
      plannedS: time?.defaultS ?? null,
      realS: realS[i] ?? null,
    })),
    byGrade: gradeClasses(walked, own),
    perPieceS:
      pieces === 0 ? null : { plannedS: workPlannedS / pieces, realS: Math.max(0, workRealS) / pieces },
    suggested: {
      walkingFactor: walkingRatio === null ? null : own.walkingFactor * walkingRatio,
      placementFactor: workPlannedS < leastS ? null : own.placementFactor * held(workRealS / workPlannedS),
    },
    matchedPct: matched.matchedPct,
  };
}

function gradeClasses(walked: readonly Walked[], own: OwnPace): GradeClassPace[] {
  return gradeClassesDeg.flatMap(([fromDeg, toDeg]) => {
    const here = walked.filter(({ segment }) => {
      const gradeDeg = gradeDegOf(segment);
      return gradeDeg !== null && gradeDeg >= fromDeg && gradeDeg < toDeg;
    });
    if (here.length === 0) return [];
    const [plannedS, realS] = [sum(here.map((p) => p.plannedS)), sum(here.map((p) => p.realS))];
    const suggested = plannedS < leastS ? null : walkingFactorAt(own, fromDeg) * held(realS / plannedS);
    return [{ fromDeg, toDeg, plannedS, realS, suggested }];
  });
}

interface Walked {
  readonly segment: Segment;
  readonly plannedS: number;
  readonly realS: number;
}

/** Of the way, all its rises and falls taken together. */
const gradeDegOf = ({ ascentM, descentM, lengthM }: Segment): number | null =>
  ascentM === null || descentM === null ? null : (Math.atan2(ascentM + descentM, lengthM) * 180) / Math.PI;

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

const held = (factor: number) => Math.min(mostFactor, Math.max(leastFactor, factor));
