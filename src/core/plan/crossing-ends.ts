import type { Choice } from './allowed-modes';
import { stanceM, type Condition, type PreparedLine } from './conditions';

/** What holds at each station, and where segments must begin. */
interface Ends {
  readonly conditions: readonly Condition[];
  readonly isBorder: Uint8Array;
}

/**
 * The station where a crossing ends takes the worse ground of its neighbours, one of which the crossing's belay still holds.
 * Where that would ask for a technique of its own over less than a stance, the belay is kept up to the next station's ground.
 */
export function withLongerStances(
  conditions: readonly Condition[],
  choices: readonly Choice[],
  edgesM: Float64Array,
  line: Pick<PreparedLine, 'isBorder'>,
): Ends {
  const isBorder = line.isBorder.slice();
  const longer = conditions.map((condition, i) => {
    const crossing = conditions[i - 1]?.crossing ?? null;
    const isEnd = crossing !== null && condition.crossing === null && isBorder[i] === 1;
    if (!isEnd || condition.override !== null || condition.designSlopeDeg === null) return condition;
    const isShort = edgesM[i + 1]! - edgesM[i]! < stanceM;
    const [asked, askedNext] = [choices[i]!, choices[i + 1]].map((choice) => choice?.allowed[0]);
    if (!isShort || asked === askedNext) return condition;
    isBorder[i] = 0;
    return { ...condition, crossing, marks: [...condition.marks, crossing] };
  });
  return { conditions: longer, isBorder };
}
