import type { Line, LinePoint } from '../domain/project';
import type { Track } from '../domain/track';
import { cleanPoints, type DroppedPoint } from './clean';
import { distanceM } from './geodesic';

/** A gap in the record, crossed by a straight piece of line that nobody walked. */
export interface BridgedGap {
  /** Index of the point behind the gap. */
  readonly index: number;
  readonly lengthM: number;
}

/** Shorter gaps are pauses of the receiver: crossed, and told (judgement). */
export const askedGapM = 100;

/** The points between breaks; a break's index is that of the point behind it. */
export function cutAt<P>(points: readonly P[], breaks: readonly { readonly index: number }[]): P[][] {
  const borders = [0, ...breaks.map(({ index }) => index), points.length];
  return borders.slice(1).map((end, i) => points.slice(borders[i], end));
}

/** A track as one line: its parts joined in order, repeated points left out, each gap told. */
export function lineFromTrack(
  track: Track,
  { id, name }: { readonly id: string; readonly name: string },
): { readonly line: Line; readonly gaps: readonly BridgedGap[]; readonly dropped: readonly DroppedPoint[] } {
  // Only what a line keeps; what other makers wrote into the points stays with the track.
  const parts = track.parts.map((part) =>
    part.map(({ position, elevationM, timeMs }): LinePoint => ({ position, elevationM, timeMs })),
  );
  const { points, dropped } = cleanPoints(parts.flat());
  const starts = new Set<LinePoint | undefined>(parts.slice(1).map((part) => part[0]));
  const gaps = points.flatMap((point, index) => {
    const before = points[index - 1];
    if (before === undefined || !starts.has(point)) return [];
    return [{ index, lengthM: distanceM(before.position, point.position) }];
  });
  return { line: { id, name: track.name === '' ? name : track.name, points }, gaps, dropped };
}
