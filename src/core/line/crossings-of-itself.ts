import type { LngLat } from '../domain/coordinates';

/** Where a line crosses itself: the indices of the two legs, each named by the point it begins at. */
export interface SelfCrossing {
  readonly firstLeg: number;
  readonly secondLeg: number;
}

interface Leg {
  readonly index: number;
  readonly a: readonly [number, number];
  readonly b: readonly [number, number];
  readonly west: number;
  readonly east: number;
}

/**
 * Crossings of a line with itself, in the plane of longitude and latitude; legs that only share their common point do not
 * count. Legs are looked at from west to east, each against those that still reach it.
 *
 * @param most how many are looked for; a scribble has thousands
 */
export function selfCrossings(positions: readonly LngLat[], most = 20): SelfCrossing[] {
  const legs = legsOf(positions).sort((p, q) => p.west - q.west);
  const found: SelfCrossing[] = [];
  let reaching: Leg[] = [];
  for (const leg of legs) {
    reaching = reaching.filter(({ east }) => east >= leg.west);
    for (const other of reaching) {
      if (!cross(leg, other)) continue;
      found.push({
        firstLeg: Math.min(leg.index, other.index),
        secondLeg: Math.max(leg.index, other.index),
      });
      if (found.length >= most) return inOrder(found);
    }
    reaching.push(leg);
  }
  return inOrder(found);
}

const inOrder = (found: SelfCrossing[]) => found.sort((p, q) => p.firstLeg - q.firstLeg);

/** Longitudes follow one another across the 180th meridian. */
function legsOf(positions: readonly LngLat[]): Leg[] {
  let before: [number, number] | null = null;
  return positions.flatMap(([lngDeg, latDeg], i) => {
    const a = before;
    const b: [number, number] = [a ? lngDeg + 360 * Math.round((a[0] - lngDeg) / 360) : lngDeg, latDeg];
    before = b;
    if (!a) return [];
    return [{ index: i - 1, a, b, west: Math.min(a[0], b[0]), east: Math.max(a[0], b[0]) }];
  });
}

/** Whether two legs have a point inside both: each one's ends lie on two sides of the other. A leg without length has none. */
function cross(p: Leg, q: Leg): boolean {
  const side = (leg: Leg, at: readonly [number, number]) =>
    Math.sign((leg.b[0] - leg.a[0]) * (at[1] - leg.a[1]) - (leg.b[1] - leg.a[1]) * (at[0] - leg.a[0]));
  return side(p, q.a) * side(p, q.b) < 0 && side(q, p.a) * side(q, p.b) < 0;
}
