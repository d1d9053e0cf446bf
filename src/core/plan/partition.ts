/** A longer segment is cut in any case, so that the work stays in proportion to the length of the line. Metres. */
const longestM = 10_000;

/**
 * Cuts a series into pieces of even character: the partition with the least sum, over its pieces, of squared departures
 * from the piece's mean (weighted by length) plus a penalty for each piece. Exact, not a heuristic.
 *
 * @param values one for each part; all known.
 * @param edgesM ends of the parts, one more than values, rising.
 * @param penalty in units of value squared times metres.
 * @param shortestM no piece is shorter, unless the whole series is.
 * @returns the index of the first part of every piece but the first, rising.
 * @source R. Killick, P. Fearnhead, I.A. Eckley, "Optimal detection of changepoints with a linear computational cost",
 * J. American Statistical Association 107 (2012) 1590-1598: PELT. With a shortest piece, a start that is pruned at one end
 * may still serve ends nearer than the shortest piece, so it goes only after that.
 */
export function evenPieces(
  values: ArrayLike<number>,
  edgesM: ArrayLike<number>,
  { penalty, shortestM }: { readonly penalty: number; readonly shortestM: number },
): number[] {
  const n = values.length;
  const edge = (i: number) => edgesM[i]!;
  // Sums up to each part, so that any piece's cost is three subtractions; values are shifted to keep the digits.
  const shift = values[0]!;
  const [sum, sumOfSquares] = [new Float64Array(n + 1), new Float64Array(n + 1)];
  for (let i = 0; i < n; i++) {
    const weightM = edge(i + 1) - edge(i);
    const value = values[i]! - shift;
    sum[i + 1] = sum[i]! + weightM * value;
    sumOfSquares[i + 1] = sumOfSquares[i]! + weightM * value * value;
  }
  const cost = (from: number, to: number): number => {
    const total = sum[to]! - sum[from]!;
    const squares = sumOfSquares[to]! - sumOfSquares[from]!;
    return Math.max(0, squares - (total * total) / (edge(to) - edge(from)));
  };

  const least = new Float64Array(n + 1).fill(Infinity);
  least[0] = 0;
  const cutBefore = new Int32Array(n + 1);
  // Starts that may still matter, the end at which each was found to be beaten, and what each costs up to here.
  const starts = new Int32Array(n + 1);
  const beatenM = new Float64Array(n + 1).fill(Infinity);
  const upToHere = new Float64Array(n + 1);
  let count = 1;

  for (let to = 1; to <= n; to++) {
    const hereM = edge(to);
    let best = Infinity;
    for (let k = 0; k < count; k++) {
      const from = starts[k]!;
      const total = least[from]! + cost(from, to);
      upToHere[k] = total;
      if (total + penalty < best && hereM - edge(from) >= shortestM) {
        best = total + penalty;
        cutBefore[to] = from;
      }
    }
    least[to] = best;
    if (best === Infinity) continue;
    let kept = 0;
    for (let k = 0; k < count; k++) {
      const from = starts[k]!;
      const firstBeatenM = upToHere[k]! > best ? Math.min(beatenM[k]!, hereM) : beatenM[k]!;
      if (hereM - firstBeatenM >= shortestM || hereM - edge(from) >= longestM) continue;
      starts[kept] = from;
      beatenM[kept++] = firstBeatenM;
    }
    starts[kept] = to;
    beatenM[kept] = Infinity;
    count = kept + 1;
  }

  const cuts: number[] = [];
  if (least[n] === Infinity) return cuts;
  for (let to = n; to > 0; to = cutBefore[to]!) cuts.push(cutBefore[to]!);
  cuts.pop();
  return cuts.reverse();
}
