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

export interface ChosenPlaces {
  /** Indexes of the chosen places without the start, the end included. */
  readonly chosen: readonly number[];
  /** The best choice among those that stand at a given place. */
  readonly through: (place: number) => number[];
  /** Seconds of its legs, its exposure left out. */
  readonly legsThroughS: (place: number) => number;
}

/** Best ways from one end of the row to every place. */
interface BestWays {
  readonly next: Int32Array;
  readonly legsS: Float64Array;
}

/**
 * Where to stand on the way so that time and exposure together are least. Exact. Where a place reaches nothing, the team goes
 * on to the next all the same, so there is always an answer.
 *
 * @source R. Bellman, "On a routing problem", Quarterly of Applied Mathematics 16 (1958) 87-90 (dynamic programming).
 */
export function choosePlaces(choice: PlaceChoice): ChosenPlaces {
  const onward = waysToEnd(choice);
  const follow = ({ next }: BestWays, from: number): number[] => {
    const way: number[] = [];
    for (let at = next[from]!; at > 0; at = next[at]!) way.push(at);
    return way;
  };
  let back: BestWays | null = null;
  const backward = () => (back ??= waysFromStart(choice));
  return {
    chosen: follow(onward, 0),
    through: (place) => [...follow(backward(), place).reverse(), place, ...follow(onward, place)],
    legsThroughS: (place) => backward().legsS[place]! + onward.legsS[place]!,
  };
}

function waysToEnd(choice: PlaceChoice): BestWays {
  const places = choice.atM.length;
  const costS = new Float64Array(places).fill(Infinity);
  const legsS = new Float64Array(places);
  const next = new Int32Array(places);
  costS[places - 1] = 0;
  for (let from = places - 2; from >= 0; from--) {
    const reached = furthest(choice, from);
    for (let to = from + 1; to <= reached; to++) {
      const legS = choice.legS(from, to);
      const viaS = legS + choice.exposureS[to]! + costS[to]!;
      // Of equal ways the one that goes furthest first: on until the pieces are used up.
      if (viaS > costS[from]! + 1e-9) continue;
      costS[from] = Math.min(viaS, costS[from]!);
      legsS[from] = legS + legsS[to]!;
      next[from] = to;
    }
  }
  return { next, legsS };
}

function waysFromStart(choice: PlaceChoice): BestWays {
  const places = choice.atM.length;
  const costS = new Float64Array(places).fill(Infinity);
  const legsS = new Float64Array(places);
  const next = new Int32Array(places);
  costS[0] = 0;
  for (let from = 0; from < places - 1; from++) {
    const reached = furthest(choice, from);
    for (let to = from + 1; to <= reached; to++) {
      const legS = choice.legS(from, to);
      const viaS = costS[from]! + legS + choice.exposureS[to]!;
      if (viaS >= costS[to]!) continue;
      costS[to] = viaS;
      legsS[to] = legsS[from]! + legS;
      next[to] = from;
    }
  }
  return { next, legsS };
}

/** The last place that can be reached from one, at least the next. */
function furthest({ atM, reachM }: PlaceChoice, from: number): number {
  const limitM = reachM(from);
  let to = from + 1;
  while (to + 1 < atM.length && atM[to + 1]! <= limitM) to++;
  return to;
}

/** What the choice costs: seconds of its legs, and of its exposure. */
export function choiceCost(
  choice: PlaceChoice,
  chosen: readonly number[],
): { legsS: number; exposureS: number } {
  let [legsS, exposureS, from] = [0, 0, 0];
  for (const to of chosen) {
    legsS += choice.legS(from, to);
    exposureS += choice.exposureS[to]!;
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

/** A step that divides `spacingM`, about 3 m, longer on long stretches so that there are at most 3000 places. */
export function candidateStepM(lengthM: number, spacingM: number): number {
  const parts = Math.min(Math.ceil(spacingM / 3), Math.floor((3000 * spacingM) / Math.max(lengthM, 1)));
  return spacingM / Math.max(1, parts);
}
