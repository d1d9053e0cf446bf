import type { Decision } from '../domain/segment';
import type { Rules } from './allowed-modes';
import type { Decided } from './decide';
import { reasonFor } from './reasons';
import { isVariant, modeOf } from './states';

/** What decided at each station, in step with the stations. */
export function decisionsOf({ conditions, choices, states }: Decided, rules: Rules): Decision[] {
  return conditions.map((condition, i): Decision => {
    const [choice, state] = [choices[i]!, states[i]!];
    return {
      mode: modeOf(state),
      variant: isVariant(state) ? state : null,
      overridden: condition.override !== null,
      reason: reasonFor(condition, choice, state, rules),
      tolerancePct: choice.tolerancePct,
      allowed: choice.allowed,
      unheldPct: choice.unheldPct,
    };
  });
}
