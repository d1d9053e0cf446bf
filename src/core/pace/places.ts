/** Places in a row, from each of which some further ones can be reached. */
export interface PlaceChoice {
  /** Ascending; the first is where the team starts, the last where it must end. */
  readonly atM: Float64Array;
  /** Furthest distance reachable from a place. */
  readonly reachM: (from: number) => number;
  /** Seconds from one place to a further one. */
  readonly legS: (from: number, to: number) => number;
  /** Seconds a place is worth avoiding; never infinite. */
  readonly exposureS: Float64Array;
}

/**
 * Where to stand on the way so that time and exposure together are least. Exact.
 *
 * @returns indexes of the chosen places without the start, the end included. Where a place reaches nothing, it goes on to the
 *   next all the same, so there is always an answer.
 * @source R. Bellman, "On a routing problem", Quarterly of Applied Mathematics 16 (1958) 87-90 (dynamic programming).
 */
export function choosePlaces({ atM, reachM, legS, exposureS }: PlaceChoice): number[] {
  const end = atM.length - 1;
  const costS = new Float64Array(atM.length).fill(Infinity);
  const cameFrom = new Int32Array(atM.length);
  costS[0] = 0;
  for (let from = 0; from < end; from++) {
    const limitM = reachM(from);
    for (let to = from + 1; to <= end && (to === from + 1 || atM[to]! <= limitM); to++) {
      const viaS = costS[from]! + legS(from, to) + exposureS[to]!;
      // Of two equal ways the one with the longer last leg: fewer stops.
      if (viaS < costS[to]! - 1e-9) {
        costS[to] = viaS;
        cameFrom[to] = from;
      }
    }
  }
  const chosen: number[] = [];
  for (let at = end; at > 0; at = cameFrom[at]!) chosen.push(at);
  return chosen.reverse();
}

/** What the choice costs: seconds of its legs, and of its exposure. */
export function choiceCost(
  choice: PlaceChoice,
  chosen: readonly number[],
): { legsS: number; exposureS: number } {
  let [legsS, exposureS, from] = [0, 0, 0];
  for (const to of chosen) {
    legsS += choice.legS(from, to);
    exposureS += choice.exposureS[to] ?? 0;
    from = to;
  }
  return { legsS, exposureS };
}

/** Candidate distances: every `stepM`, and the end; none within half a metre before the end. */
export function candidatesM(lengthM: number, stepM: number): Float64Array {
  const inner = Math.max(0, Math.ceil((lengthM - 0.5) / stepM) - 1);
  const atM = new Float64Array(inner + 2);
  for (let i = 1; i <= inner; i++) atM[i] = i * stepM;
  atM[inner + 1] = lengthM;
  return atM;
}

/** A step that divides `spacingM`, about 2 m, longer on long stretches so that there are at most 6000 places. */
export function candidateStepM(lengthM: number, spacingM: number): number {
  const parts = Math.min(Math.ceil(spacingM / 2), Math.floor((6000 * spacingM) / Math.max(lengthM, 1)));
  return spacingM / Math.max(1, parts);
}
