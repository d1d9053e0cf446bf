import type { LngLat } from '../domain/coordinates';
import type { Gathering, Plan, Segment } from '../domain/segment';
import { bearingDeg, distanceM } from '../line/geodesic';
import { measureLine } from '../line/measured-line';
import { nearestOnLine } from '../line/nearest';

/** Where a team is on its plan, and what comes. */
export interface OnTheWay {
  readonly alongM: number;
  /** From the place on the line to the team. */
  readonly offsetM: number;
  /** From the team to the line, clockwise from true north; NaN on the line. Degrees. */
  readonly backToLineDeg: number;
  readonly segment: Segment;
  readonly next: Segment | null;
  readonly toNextM: number;
  /** The next gathering ahead; null: none is left. Straight from here, clockwise from true north. */
  readonly gathering:
    (Gathering & { readonly aheadM: number; readonly straightM: number; readonly bearingDeg: number }) | null;
  /** Behind the plan's clock, negative: ahead of it. null: no clock, nothing computed here, or another day. Seconds. */
  readonly lateS: number | null;
}

export interface Fix {
  readonly position: LngLat;
  /** One standard deviation, metres. */
  readonly accuracyM: number;
  readonly atMs: number;
}

/** A team is looked for this far behind and ahead of where it was, before the whole line is searched. Metres. */
const [behindM, aheadM] = [80, 400];
/** Nearer than this, or than twice the receiver's error, a place is on the line (judgement: receivers in steep ground). */
const onLineM = 50;
/** Further from the plan's clock it is another day. */
const sameDayS = 12 * 3600;

/**
 * Projects a position on the line of a plan. A line that meets itself is walked once: the place ahead of where the team was is
 * preferred to one elsewhere. null: there is no line.
 * @param beforeM where the team was last; null: not known.
 */
export function onTheWay(plan: Plan, fix: Fix, beforeM: number | null): OnTheWay | null {
  const place = placeOf(plan, fix, beforeM);
  if (!place) return null;
  const { alongM, offsetM } = place;
  const index = plan.segments.findIndex(({ toM }) => alongM < toM);
  const segment = plan.segments.at(index)!;
  const next = (index >= 0 && plan.segments[index + 1]) || null;
  return {
    alongM,
    offsetM,
    backToLineDeg: bearingDeg(fix.position, place.position),
    segment,
    next,
    toNextM: segment.toM - alongM,
    gathering: gatheringAhead(plan, fix.position, alongM),
    lateS: lateS(segment, alongM, fix.atMs),
  };
}

function placeOf({ stations }: Plan, { position, accuracyM }: Fix, beforeM: number | null) {
  const last = stations.at(-1);
  if (!last) return null;
  const isNear = ({ alongM }: { alongM: number }) =>
    beforeM !== null && alongM >= beforeM - behindM && alongM <= beforeM + aheadM;
  const around = beforeM === null ? [] : stations.filter(isNear);
  for (const some of [around, stations]) {
    const positions = some.map((station) => station.position);
    const found = nearestOnLine(positions, position);
    if (!found || (some === around && found.offsetM > Math.max(onLineM, 2 * accuracyM))) continue;
    return {
      alongM: Math.min(some[0]!.alongM + found.alongM, last.alongM),
      offsetM: found.offsetM,
      position: measureLine(positions).at(found.alongM).position,
    };
  }
  return null;
}

function gatheringAhead({ segments }: Plan, from: LngLat, alongM: number): OnTheWay['gathering'] {
  const all = segments.flatMap(({ gatherings }) => gatherings);
  const ahead = all.filter((each) => each.alongM > alongM).sort((a, b) => a.alongM - b.alongM)[0];
  return ahead
    ? {
        ...ahead,
        aheadM: ahead.alongM - alongM,
        straightM: distanceM(from, ahead.position),
        bearingDeg: bearingDeg(from, ahead.position),
      }
    : null;
}

/** Evenly within the segment, as the plan's own clock goes. */
function lateS({ fromM, toM, arrive, leave }: Segment, alongM: number, atMs: number): number | null {
  if (arrive === null || leave === null) return null;
  const [startMs, endMs] = [Date.parse(arrive), Date.parse(leave)];
  const part = Math.min(1, Math.max(0, (alongM - fromM) / Math.max(toM - fromM, 1e-9)));
  const late = (atMs - (startMs + part * (endMs - startMs))) / 1000;
  return Math.abs(late) > sameDayS ? null : late;
}
