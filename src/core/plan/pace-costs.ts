import type { Figures } from '../assumptions/figures';
import type { Variant } from '../domain/mode';
import type { Project } from '../domain/project';
import type { Party } from '../domain/rope-team';
import { crossingS } from '../pace/crossing';
import { transitionS, type RopeState } from '../pace/transitions';
import { walkedSecondsPerM } from '../pace/walked';
import type { Condition } from './conditions';
import type { Costs } from './decide';
import { ropeWorks } from './rope-work';
import { isVariant, type State } from './states';

/** The team in its order on the rope, going up and going down. */
export interface RopeOrders {
  readonly up: Party;
  readonly down: Party;
}

export function ropeOrders({ party, turnsRoundGoingDown }: Project): RopeOrders {
  return {
    up: party,
    down: turnsRoundGoingDown ? { ...party, climbers: party.climbers.toReversed() } : party,
  };
}

/** How the team is on its rope in a state. */
export const ropeState = (state: State): RopeState =>
  state === 'none-holds' || state === 'no-data' ? null : state;

/** What going costs this team. */
export function paceCosts(project: Project, figures: Figures, orders: RopeOrders): Costs {
  const { ownPace: own, walkingRule: rule, party } = project;
  const climbers = party.climbers.length;
  const crossing = (lengthM: number) => crossingS({ lengthM, climbers }, figures, 'usual', own);
  const works = ropeWorks(project, figures, (goingDown) => (goingDown ? orders.down : orders.up));
  const workAt = (variant: Variant, { snow, runOut, goingDown }: Condition) =>
    works(variant, snow, runOut, goingDown);

  return {
    secondsPerM(state, condition) {
      const { gradeDeg, elevationM } = condition.station;
      if (state === 'crossing') return crossing(1) - crossing(0);
      if (!isVariant(state)) return 0;
      if (state === 'roped')
        return walkedSecondsPerM(gradeDeg, elevationM, { snow: condition.snow, figures, own, rule });
      return workAt(state, condition).slopeSecondsPerM / Math.cos(((gradeDeg ?? NaN) * Math.PI) / 180);
    },
    onceS(state, condition) {
      if (state === 'crossing') return crossing(0);
      return isVariant(state) && state !== 'roped' ? workAt(state, condition).onceS : 0;
    },
    changeS: (from, to) => transitionS(ropeState(from), ropeState(to), { party, figures }),
  };
}
