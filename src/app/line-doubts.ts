import type { LngLat } from '../core/domain/coordinates';
import type { Line, LinePoint } from '../core/domain/project';
import { askedGapM, cutAt, type BridgedGap } from '../core/line/from-track';
import { jumpsOf, withoutStrays } from '../core/line/jumps';
import { looksSwapped, swapLngLat, type HeightLook } from '../core/line/track-against-ground';
import { formatPosition } from '../core/line/notation';
import { countText, lengthText } from '../core/wording/numbers';
import type { Units } from '../core/wording/units';
import type { Choice, Sketch } from './asking';

/** A question about a line that was read, and the line or lines that each answer makes of it. */
export interface Doubt {
  readonly choice: Choice;
  readonly lines: Readonly<Record<string, () => readonly Line[]>>;
}

/** Nobody walked the straight pieces across gaps, so nobody but the guide can say that the way goes there. */
export function gapDoubt(line: Line, gaps: readonly BridgedGap[], units: Units): Doubt | null {
  const wide = gaps.filter(({ lengthM }) => lengthM >= askedGapM);
  const widest = wide.reduce((a, b) => (b.lengthM > a.lengthM ? b : a), { index: 0, lengthM: 0 });
  if (wide.length === 0) return null;
  const { name } = line;
  return {
    choice: {
      title: `${name} has ${countText(wide.length, 'gap')}, the widest of ${lengthText(widest.lengthM, units)}.`,
      detail: 'Nothing was recorded there.',
      choices: [
        { value: 'apart', label: 'Leave them open: each part a line of its own' },
        { value: 'cross', label: 'Cross them by straight pieces' },
      ],
      typed: false,
      sketch: cutSketch(line.points, wide, 'The line with its gaps dashed'),
    },
    lines: {
      cross: () => [line],
      apart: () =>
        cutAt(line.points, wide)
          .filter((points) => points.length > 1)
          .map((points, i) => ({ id: `${line.id}-${i + 1}`, name: `${name}, part ${i + 1}`, points })),
    },
  };
}

export function jumpDoubt(line: Line, units: Units): Doubt | null {
  const jumps = jumpsOf(line.points);
  const first = jumps[0];
  if (first === undefined) return null;
  const without = withoutStrays(line.points);
  const [from, to] = [line.points[first.index - 1], line.points[first.index]].map((point) =>
    point ? formatPosition(point.position, 'decimal-degrees') : '',
  );
  const strays = line.points.length - without.length;
  return {
    choice: {
      title: `${line.name} jumps ${lengthText(first.lengthM, units)} between point ${first.index} (${from}) and ${first.index + 1} (${to}).`,
      detail: jumps.length > 1 ? `There are ${jumps.length} such jumps.` : 'Nobody walks that unrecorded.',
      choices: [
        ...(strays > 0
          ? [{ value: 'without', label: `Leave out ${countText(strays, 'point')} beyond the jumps` }]
          : []),
        { value: 'keep', label: 'Open it as it is' },
      ],
      typed: false,
      sketch: cutSketch(line.points, jumps, 'The line with its jumps dashed'),
    },
    lines: { keep: () => [line], without: () => [{ ...line, points: without }] },
  };
}

/** A raster that is open, as far as it tells where it lies. */
export interface Outlined {
  readonly outline: readonly LngLat[];
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

export function swapDoubt(line: Line, grounds: readonly Outlined[]): Doubt | null {
  const isOnGround = ([lng, lat]: LngLat) =>
    grounds.some(
      ({ west, south, east, north }) =>
        [lng, lng + 360].some((turned) => turned >= west && turned <= east) && lat >= south && lat <= north,
    );
  if (
    !looksSwapped(
      line.points.map(({ position }) => position),
      isOnGround,
    )
  )
    return null;
  const swapped = swapLngLat(line.points);
  return {
    choice: {
      title: `${line.name} lies off the open ground, but on it with longitude and latitude exchanged.`,
      detail: 'Some programs write them in the wrong order.',
      choices: [
        { value: 'keep', label: 'Open it as it is' },
        { value: 'swap', label: 'Exchange them' },
      ],
      typed: false,
      sketch: {
        label: 'The ground, and the line as it would lie on it after the exchange',
        legs: [{ positions: thinned(swapped), isDoubtful: false }],
        grounds: grounds.map(({ outline }) => outline),
      },
    },
    lines: { keep: () => [line], swap: () => [{ ...line, points: swapped }] },
  };
}

export function feetDoubt(line: Line, look: HeightLook, inMetres: readonly LinePoint[]): Doubt | null {
  if (look.kind !== 'feet') return null;
  return {
    choice: {
      title: `The elevations in ${line.name} look like feet.`,
      detail: 'Taken as feet they fit the open ground, taken as metres they do not.',
      choices: [
        { value: 'feet', label: 'They are feet: convert them' },
        { value: 'metres', label: 'They are metres' },
      ],
      typed: false,
    },
    lines: { metres: () => [line], feet: () => [{ ...line, points: inMetres }] },
  };
}

function cutSketch(
  points: readonly LinePoint[],
  breaks: readonly { readonly index: number }[],
  label: string,
): Sketch {
  const solid = cutAt(points, breaks).map((part) => ({ positions: thinned(part), isDoubtful: false }));
  const doubtful = breaks.map(({ index }) => ({
    positions: points.slice(index - 1, index + 1).map(({ position }) => position),
    isDoubtful: true,
  }));
  return { label, legs: [...solid, ...doubtful], grounds: [] };
}

const mostSketched = 200;

function thinned(points: readonly LinePoint[]): LngLat[] {
  const step = Math.max(1, Math.ceil(points.length / mostSketched));
  return points.filter((_, i) => i % step === 0 || i === points.length - 1).map(({ position }) => position);
}
