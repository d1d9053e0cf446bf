import type { Figures } from '../assumptions/figures';
import type { Project } from '../domain/project';
import type { TimeSpan } from '../domain/segment';
import { paceStretch } from '../pace/stretch';
import type { StretchInput, StretchPace } from '../pace/stretch-input';
import { noTime } from '../pace/level';
import { transitionSpan } from '../pace/transitions';
import { nearestIndex } from './borders';
import type { Decided } from './decide';
import { ropeState, type RopeOrders } from './pace-costs';
import { stretchSpans, type Span } from './spans';
import { standingRules } from './standing-rules';
import { isVariant, modeOf, type State } from './states';

/** A stretch gone in one go, with its time. */
export interface PacedStretch {
  readonly span: Span;
  readonly input: StretchInput;
  /** Without the change into it. */
  readonly pace: StretchPace;
  /** The change into it: knots, interval, turning round. */
  readonly transition: TimeSpan;
}

export interface PaceContext {
  readonly project: Project;
  readonly figures: Figures;
  readonly orders: RopeOrders;
  /** How the team comes to the line's beginning; null: roped and ready. */
  readonly comesFrom: ComesFrom | null;
  /** Also count where everybody is when, which sharing a stretch's time among several segments needs. */
  withEvents(stretch: Span): boolean;
}

export interface ComesFrom {
  readonly state: State;
  readonly goingDown: boolean;
}

/** Paces the whole line, stretch by stretch. */
export function paceStretches(decided: Decided, context: PaceContext): PacedStretch[] {
  const { project, figures, orders } = context;
  const { stations, lineMarks } = decided.line;
  const common = {
    stations,
    figures,
    own: project.ownPace,
    walkingRule: project.walkingRule,
    lastTakesLead: project.lastTakesLead,
    ...standingRules(lineMarks, project.party.rope.intervalM),
    runOutAt: (alongM: number) => decided.conditions[nearestIndex(stations, alongM)]!.runOut,
  };

  let before = context.comesFrom;
  return stretchSpans(decided).map((span) => {
    const state = decided.states[span.first]!;
    const { goingDown, snow } = decided.conditions[span.first]!;
    const input: StretchInput = {
      ...common,
      mode: modeOf(state),
      variant: isVariant(state) ? state : null,
      fromM: span.fromM,
      toM: span.toM,
      party: goingDown ? orders.down : orders.up,
      snow,
      withEvents: context.withEvents(span),
    };
    const here = { state, goingDown };
    const transition = before === null ? noTime : changeBetween(before, here, context);
    before = here;
    return { span, input, pace: paceStretch(input), transition };
  });
}

function changeBetween(before: ComesFrom, here: ComesFrom, { project, figures }: PaceContext): TimeSpan {
  const turnsRound = project.turnsRoundGoingDown && before.goingDown !== here.goingDown;
  const options = { party: project.party, figures, turnsRound };
  return transitionSpan(ropeState(before.state), ropeState(here.state), options);
}
