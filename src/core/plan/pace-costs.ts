import type { Figures } from '../assumptions/figures';
import type { Project } from '../domain/project';
import type { Party } from '../domain/rope-team';
import { onceS, secondsPerM, type PlacePace } from '../pace/seconds-per-m';
import { crossingS } from '../pace/crossing';
import { transitionS, type RopeState } from '../pace/transitions';
import type { Condition } from './conditions';
import type { Costs } from './decide';
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
  const common = {
    figures,
    own: project.ownPace,
    rule: project.walkingRule,
    lastTakesLead: project.lastTakesLead,
  };
  const place = ({ station, snow, runOut, goingDown }: Condition): PlacePace => ({
    ...common,
    snow,
    runOut,
    gradeDeg: station.gradeDeg,
    elevationM: station.elevationM,
    party: goingDown ? orders.down : orders.up,
  });
  const climbers = project.party.climbers.length;
  const crossing = (lengthM: number) => crossingS({ lengthM, climbers }, figures, 'usual', project.ownPace);

  return {
    secondsPerM(state, condition) {
      if (isVariant(state)) return secondsPerM(state, place(condition));
      return state === 'crossing' ? crossing(1) - crossing(0) : 0;
    },
    onceS(state, condition) {
      if (isVariant(state)) return onceS(state, place(condition));
      return state === 'crossing' ? crossing(0) : 0;
    },
    changeS: (from, to) => transitionS(ropeState(from), ropeState(to), { party: project.party, figures }),
  };
}
