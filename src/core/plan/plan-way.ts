import type { Figures } from '../assumptions/figures';
import type { Project } from '../domain/project';
import type { Segment } from '../domain/segment';
import { arrivalsOf, changedSnowAt, withClock } from './arrivals';
import { climbsOf } from './climbs';
import { prepareLine, type ChangedSnow } from './conditions';
import type { DayClock } from './day-clock';
import { decide, type Costs, type Decided } from './decide';
import type { RopeOrders } from './pace-costs';
import { paceStretches, type ComesFrom, type PacedStretch } from './pace-stretches';
import { segmentOf } from './segments';
import type { Model } from './sensitivity';
import { shareStretch } from './share-time';
import { segmentSpans, type Span } from './spans';
import type { Way } from './way';

/** What planning needs besides the line. */
export interface Planner {
  readonly project: Project;
  readonly figures: Figures;
  readonly model: Model;
  readonly costs: Costs;
  readonly orders: RopeOrders;
  readonly clock: DayClock | null;
}

/** One way of the day, planned. */
export interface PlannedWay {
  readonly decided: Decided;
  readonly stretches: readonly PacedStretch[];
  readonly segments: readonly Segment[];
  /** The segments' stations, in step with them. */
  readonly spans: readonly Span[];
  /** From the day's start to this way's end; null where it cannot be told. */
  readonly endS: number | null;
}

/** Plans again until no further snow has changed by the time the team comes to it; each round is later or the last. */
const mostRounds = 6;

/**
 * Decides a way, counts its time, and where the clock has changed the snow before the team is there decides again. What is
 * once found changed stays so, even if the team would be quicker on it.
 *
 * @param startS when the way begins, seconds from the day's start; null: not known.
 */
export function planWay(
  planner: Planner,
  way: Way,
  startS: number | null,
  comesFrom: ComesFrom | null,
): PlannedWay {
  const { figures, clock } = planner;
  const bordersM = way.snowChanges.flatMap(({ fromM, toM }) => [fromM, toM]);
  const line = prepareLine(way.line, figures, bordersM);
  const alongM = line.stations.map((station) => station.alongM);
  let changed: readonly (ChangedSnow | null)[] = [];

  for (let round = 1; ; round++) {
    const decided = decide(line, changed, { ...planner.model, costs: planner.costs });
    const spans = segmentSpans(decided);
    const ends = new Map(spans.map(({ first, end }) => [first, end]));
    const withEvents = ({ first, end }: Span) => ends.get(first) !== end;
    const stretches = paceStretches(decided, { ...planner, comesFrom, withEvents });
    const timed = timedSpans(spans, stretches);
    const arrivals = arrivalsOf(timed.map(({ span, pace }) => ({ ...span, time: pace.time })));
    if (clock !== null && startS !== null && way.snowChanges.length > 0 && round < mostRounds) {
      const before = changed;
      const found = changedSnowAt(alongM, way.snowChanges, arrivals, clock, startS);
      changed = found.map((snow, i) => snow ?? before[i] ?? null);
      if (changed.some((snow, i) => snow !== (before[i] ?? null))) continue;
    }
    const climbs = climbsOf(line.stations, figures.walking.wiggleM);
    const { onGlacier } = planner.project;
    const segments = timed.map(({ span, pace }, index) =>
      segmentOf(decided, { id: index + 1, span, pace, climbs, model: planner.model, onGlacier }),
    );
    return {
      decided,
      stretches,
      segments: clock === null || startS === null ? segments : withClock(segments, clock, startS),
      spans: timed.map(({ span }) => span),
      endS: startS === null || arrivals.endS === null ? null : startS + arrivals.endS,
    };
  }
}

/** Every segment's stations with its share of the stretch it lies in. */
function timedSpans(spans: readonly Span[], stretches: readonly PacedStretch[]) {
  let next = 0;
  return stretches.flatMap((stretch) => {
    const first = next;
    while (next < spans.length && spans[next]!.end <= stretch.span.end) next++;
    const inside = spans.slice(first, next);
    const paces = shareStretch(stretch, inside);
    return inside.map((span, k) => ({ span, pace: paces[k]! }));
  });
}
