import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { evenPieces } from '../../../src/core/plan/partition';

const evenEdges = (count: number, stepM: number) => Array.from({ length: count + 1 }, (_, i) => i * stepM);

/** Cost of a partition as it is defined, without any of the shortcuts. */
function costOf(
  values: readonly number[],
  edgesM: readonly number[],
  cuts: readonly number[],
  penalty: number,
) {
  const ends = [0, ...cuts, values.length];
  let total = 0;
  for (let k = 1; k < ends.length; k++) {
    const [from, to] = [ends[k - 1]!, ends[k]!];
    const weights = values.slice(from, to).map((_, i) => edgesM[from + i + 1]! - edgesM[from + i]!);
    const length = weights.reduce((sum, w) => sum + w, 0);
    const mean = values.slice(from, to).reduce((sum, v, i) => sum + v * weights[i]!, 0) / length;
    total += values.slice(from, to).reduce((sum, v, i) => sum + weights[i]! * (v - mean) ** 2, 0) + penalty;
  }
  return total;
}

function everyPartition(count: number): number[][] {
  return Array.from({ length: 2 ** (count - 1) }, (_, bits) =>
    Array.from({ length: count - 1 }, (_, i) => i + 1).filter((cut) => (bits >> (cut - 1)) & 1),
  );
}

const longEnough = (edgesM: readonly number[], cuts: readonly number[], shortestM: number) => {
  const ends = [0, ...cuts, edgesM.length - 1].map((i) => edgesM[i]!);
  return ends.slice(1).every((end, i) => end - ends[i]! >= shortestM);
};

/** Killick, Fearnhead & Eckley 2012: the pruned search finds the optimum itself. */
describe('optimal partition', () => {
  test('is as good as the best of all partitions of a short series', () => {
    const series = fc.integer({ min: 2, max: 11 }).chain((count) =>
      fc.record({
        values: fc.array(between(0, 60), { minLength: count, maxLength: count }),
        stepsM: fc.array(between(1, 9), { minLength: count, maxLength: count }),
        penalty: between(0, 3000),
        shortestM: fc.constantFrom(0, 5, 10, 20),
      }),
    );
    fc.assert(
      fc.property(series, ({ values, stepsM, penalty, shortestM }) => {
        const edgesM = stepsM.reduce<number[]>((edges, step) => [...edges, edges.at(-1)! + step], [0]);
        const cuts = evenPieces(values, edgesM, { penalty, shortestM });
        const admissible = everyPartition(values.length).filter((all) => longEnough(edgesM, all, shortestM));
        if (admissible.length === 0) {
          expect(cuts).toEqual([]);
          return;
        }
        expect(longEnough(edgesM, cuts, shortestM)).toBe(true);
        const best = Math.min(...admissible.map((all) => costOf(values, edgesM, all, penalty)));
        expect(costOf(values, edgesM, cuts, penalty)).toBeLessThanOrEqual(best + 1e-6 * (1 + best));
      }),
      { numRuns: cases(1000) },
    );
  });

  test('finds one step where it is', () => {
    const values = [...Array<number>(40).fill(20), ...Array<number>(40).fill(35)];
    expect(evenPieces(values, evenEdges(80, 5), { penalty: 3000, shortestM: 20 })).toEqual([40]);
  });

  test('an even slope stays in one piece', () => {
    expect(
      evenPieces(Array<number>(500).fill(30), evenEdges(500, 5), { penalty: 3000, shortestM: 20 }),
    ).toEqual([]);
  });
});
