export interface SequenceCosts {
  readonly placeS: Float64Array;
  readonly enterS: Float64Array;
  readonly changeS: Float64Array;
}

/**
 * The quickest way through a row of places, at each of which some states may stand.
 *
 * @param placeS seconds spent at each place in each state, row by row (place-major); Infinity where a state may not stand.
 *   Every place needs one state that may.
 * @param enterS seconds spent once when a state begins at a place, in the shape of placeS.
 * @param changeS seconds to change from the row's state to the column's.
 * @returns the state at each place. Of two equally quick, the one with the higher number.
 * @source R. Bellman, "On a routing problem", Quarterly of Applied Mathematics 16 (1958) 87-90 (dynamic programming).
 */
export function quickestSequence({ placeS, enterS, changeS }: SequenceCosts, states: number): Uint8Array {
  const places = placeS.length / states;
  const sequence = new Uint8Array(places);
  if (places === 0) return sequence;
  const cameFrom = new Uint8Array(placeS.length);
  let soFarS = Float64Array.from({ length: states }, (_, s) => placeS[s]! + enterS[s]!);
  let nextS = new Float64Array(states);

  for (let place = 1; place < places; place++) {
    nextS.fill(Infinity);
    for (let to = 0; to < states; to++) {
      const hereS = placeS[place * states + to]!;
      if (hereS === Infinity) continue;
      let bestS = Infinity;
      for (let from = 0; from < states; from++) {
        const anewS = from === to ? 0 : enterS[place * states + to]!;
        const viaS = soFarS[from]! + changeS[from * states + to]! + anewS;
        if (viaS <= bestS && viaS < Infinity) {
          bestS = viaS;
          cameFrom[place * states + to] = from;
        }
      }
      nextS[to] = bestS + hereS;
    }
    [soFarS, nextS] = [nextS, soFarS];
  }

  let state = lastLeast(soFarS);
  for (let place = places - 1; place >= 0; place--) {
    sequence[place] = state;
    state = cameFrom[place * states + state]!;
  }
  return sequence;
}

function lastLeast(values: Float64Array): number {
  let least = Infinity;
  let index = -1;
  values.forEach((value, i) => {
    if (value <= least && value < Infinity) [least, index] = [value, i];
  });
  if (index < 0) throw new Error('a place on the line has no state that may stand there');
  return index;
}
