import { modeName, protection } from '../../domain/mode';
import type { Warning } from '../../domain/segment';
import { digits } from '../../wording/numbers';
import { choicesAt } from '../allowed-modes';
import { decidingStation } from '../sensitivity';
import { byNumbers, modeOf } from '../states';
import { stretchesWhere, warn, type Planned } from './warn';

/** Where protection is missing, or less than the numbers ask. */
export function protectionWarnings(planned: Planned): Warning[] {
  return [...noneHolds(planned), ...lessThanAsked(planned), ...noData(planned), ...straddling(planned)];
}

function noneHolds({ decided }: Planned): Warning[] {
  return stretchesWhere(decided, (i) => decided.states[i] === 'none-holds').map((stretch) =>
    warn(
      'none-holds',
      3,
      'None holds well enough: another line, other snow (wait for the freeze), or turn back.',
      stretch,
    ),
  );
}

function noData({ decided }: Planned): Warning[] {
  const unknown = (i: number) => decided.choices[i]?.rule === 'no-data';
  return stretchesWhere(decided, unknown).map((stretch) =>
    warn(
      'no-data',
      3,
      'The elevation data say nothing here: slope and run-out are unknown, no mode can be given.',
      stretch,
    ),
  );
}

function lessThanAsked({ decided, segments, spans }: Planned): Warning[] {
  return segments.flatMap((segment, k) => {
    if (!segment.overridden) return [];
    const at = decidingStation(decided, spans[k]!);
    const asked = modeOf(byNumbers(decided.conditions[at]!, decided.choices[at]!)[0]);
    const unknown = asked === 'no-data' && segment.mode !== 'no-data';
    if (!unknown && protection[segment.mode] >= protection[asked]) return [];
    const ask = unknown ? 'no ground data to decide on' : `the numbers ask for: ${modeName[asked]}`;
    return [warn('override-less', 3, `Set by the guide: ${modeName[segment.mode]}; ${ask}.`, segment)];
  });
}

/** Where the slope's own uncertainty, two standard deviations, reaches a more protective mode. */
function straddling({ decided, segments, spans, model }: Planned): Warning[] {
  return segments.flatMap((segment, k) => {
    if (segment.overridden) return [];
    const at = decidingStation(decided, spans[k]!);
    const condition = decided.conditions[at]!;
    if (condition.designSlopeDeg === null || condition.slopeSigmaDeg === null) return [];
    const steeperDeg = condition.designSlopeDeg + 2 * condition.slopeSigmaDeg;
    const steeper = { ...condition, designSlopeDeg: steeperDeg };
    const asked = modeOf(byNumbers(steeper, choicesAt(steeper, model.rules, model.lookup, 'first'))[0]);
    if (protection[asked] <= protection[segment.mode]) return [];
    const text =
      `The data's slope is uncertain: ${digits(condition.designSlopeDeg)}° may be ${digits(steeperDeg)}° ` +
      `(two standard deviations), where the numbers ask for: ${modeName[asked]}.`;
    return [warn('slope-straddles', 2, text, segment)];
  });
}
