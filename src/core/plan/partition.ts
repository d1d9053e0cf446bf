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
  const edge = (i: number) => edgesM[i] ?? NaN;
  // Sums up to each part, so that any piece's cost is three subtractions; values are shifted to keep the digits.
  const shift = values[0] ?? 0;
  const [sum, sumOfSquares] = [new Float64Array(n + 1), new Float64Array(n + 1)];
  for (let i = 0; i < n; i++) {
    const weightM = edge(i + 1) - edge(i);
    const value = (values[i] ?? NaN) - shift;
    sum[i + 1] = (sum[i] ?? 0) + weightM * value;
    sumOfSquares[i + 1] = (sumOfSquares[i] ?? 0) + weightM * value * value;
  }
  const cost = (from: number, to: number): number => {
    const total = (sum[to] ?? 0) - (sum[from] ?? 0);
    const squares = (sumOfSquares[to] ?? 0) - (sumOfSquares[from] ?? 0);
    return Math.max(0, squares - (total * total) / (edge(to) - edge(from)));
  };

  const least = new Float64Array(n + 1).fill(Infinity);
  least[0] = 0;
  const cutBefore = new Int32Array(n + 1);
  /** Starts that may still matter, and the end at which each was found to be beaten. */
  let starts: { readonly from: number; beatenM: number }[] = [{ from: 0, beatenM: Infinity }];

  for (let to = 1; to <= n; to++) {
    const hereM = edge(to);
    let best = Infinity;
    for (const start of starts) {
      if (hereM - edge(start.from) < shortestM) continue;
      const total = (least[start.from] ?? Infinity) + cost(start.from, to) + penalty;
      if (total < best) {
        best = total;
        cutBefore[to] = start.from;
      }
    }
    least[to] = best;
    if (best === Infinity) continue;
    for (const start of starts) {
      const beaten = (least[start.from] ?? Infinity) + cost(start.from, to) > best;
      if (beaten && start.beatenM === Infinity) start.beatenM = hereM;
    }
    starts.push({ from: to, beatenM: Infinity });
    starts = starts.filter(
      ({ from, beatenM }) => hereM - beatenM < shortestM && hereM - edge(from) < longestM,
    );
  }

  const cuts: number[] = [];
  if (least[n] === Infinity) return cuts;
  for (let to = n; to > 0; to = cutBefore[to] ?? 0) cuts.push(cutBefore[to] ?? 0);
  cuts.pop();
  return cuts.reverse();
}
