import type { Segment, TimeParts, TimeSpan } from '../domain/segment';
import { addTime } from '../pace/level';
import { between, slopeLength } from '../pace/on-line';
import type { PaceEvent } from '../pace/pace-event';
import { walkedS } from '../pace/walked';
import type { PacedStretch } from './pace-stretches';
import type { Span } from './spans';

/** What of a stretch's time and gear belongs to one segment. */
export type SegmentPace = Pick<
  Segment,
  'time' | 'parts' | 'pieces' | 'gatherings' | 'rotations' | 'pitches'
> & { readonly crossings: number };

/**
 * Shares a stretch among the segments it holds, by when the first of the team comes to their borders; walking, by the time
 * the ground takes. The change into the stretch belongs to its first segment. The shares add up to the stretch.
 */
export function shareStretch(
  { span, input, pace, transition }: PacedStretch,
  segments: readonly Span[],
): SegmentPace[] {
  const weights = input.mode === 'roped' ? walked() : firstComes();
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const lengthM = span.toM - span.fromM;

  return segments.map((segment, k) => {
    const share = total > 0 ? weights[k]! / total : (segment.toM - segment.fromM) / lengthM;
    const isLast = k === segments.length - 1;
    const isHere = ({ alongM }: { readonly alongM: number }) =>
      (k === 0 || alongM >= segment.fromM) && (isLast || alongM < segment.toM);
    const gatherings = pace.gatherings.filter(isHere);
    const shared = pace.time === null ? null : scaled(pace.time, share);
    const parts = pace.parts === null ? null : scaledParts(pace.parts, share);
    return {
      time: shared === null || k > 0 ? shared : addTime(shared, transition),
      parts:
        parts === null || k > 0 ? parts : { ...parts, transitionS: parts.transitionS + transition.defaultS },
      pieces: pace.pieces.filter(isHere),
      gatherings,
      rotations: input.mode === 'running-belay' ? gatherings.length : 0,
      pitches: input.mode === 'pitched-belay' ? gatherings.length : 0,
      crossings: k === 0 ? pace.crossings : 0,
    };
  });

  function walked(): number[] {
    const rule = input.walkingRule === 'tobler' ? 'tobler' : 'munter';
    return segments.map(({ fromM, toM }) => walkedS({ ...input, rule, fromM, toM }));
  }

  function firstComes(): number[] {
    if (segments.length === 1 || pace.time === null) return [1];
    const { alongM, slopeM } = slopeLength(input.stations);
    const startM = between(alongM, slopeM, span.fromM);
    const bordersM = segments.slice(0, -1).map(({ toM }) => between(alongM, slopeM, toM) - startM);
    const atS = [0, ...whenFirstAt(pace.events, bordersM), pace.time.defaultS];
    return segments.map((_, k) => Math.max(0, atS[k + 1]! - atS[k]!));
  }
}

/** When anybody of the team first comes to each of some distances. Seconds. */
function whenFirstAt(events: readonly PaceEvent[], bordersM: readonly number[]): number[] {
  const moves = events.filter(({ fromM, toM }) => toM > fromM);
  const furthestM = moves.reduce((most, { toM }) => Math.max(most, toM), 0);
  return bordersM.map((borderM) => {
    // Rounding may leave the last borders a hair beyond the last step.
    const placeM = Math.min(borderM, furthestM);
    let firstS = Infinity;
    for (const { fromS, toS, fromM, toM } of moves) {
      if (toM < placeM || fromS >= firstS) continue;
      const part = Math.max(0, (placeM - fromM) / (toM - fromM));
      firstS = Math.min(firstS, fromS + part * (toS - fromS));
    }
    return Number.isFinite(firstS) ? firstS : 0;
  });
}

const scaled = (time: TimeSpan, share: number): TimeSpan => ({
  lowS: time.lowS * share,
  defaultS: time.defaultS * share,
  highS: time.highS * share,
});

const scaledParts = (parts: TimeParts, share: number): TimeParts => ({
  walkingS: parts.walkingS * share,
  placementS: parts.placementS * share,
  gatheringS: parts.gatheringS * share,
  pitchingS: parts.pitchingS * share,
  crossingS: parts.crossingS * share,
  transitionS: parts.transitionS * share,
});
