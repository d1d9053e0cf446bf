import { bestPlacement } from '../assumptions/figures';
import type { PlacedPiece } from '../domain/segment';
import { crossingEvents, crossingS } from './crossing';
import { addTime, timeSpan } from './level';
import type { PaceEvent } from './pace-event';
import { noParts, withoutTime, type StretchInput, type StretchPace } from './stretch-input';
import { pacePitched } from './stretch-pitched';
import { stretchPlaces, type StretchPlaces } from './stretch-places';
import { paceRunning } from './stretch-running';
import { walkedS } from './walked';

/**
 * Time, pieces and standing places of a stretch of one mode. Distances along the line are horizontal; pieces, intervals and
 * pitches are counted along the slope, where the rope lies.
 */
export function paceStretch(input: StretchInput): StretchPace {
  const { transition } = input;
  const pace = withoutTransition(input);
  if (transition === undefined || pace.time === null || pace.parts === null) return pace;
  const parts = { ...pace.parts, transitionS: pace.parts.transitionS + transition.defaultS };
  return { ...pace, time: addTime(pace.time, transition), parts };
}

function withoutTransition(input: StretchInput): StretchPace {
  if (!(input.toM > input.fromM)) return withoutTime;
  switch (input.mode) {
    case 'roped':
      return paceRoped(input, stretchPlaces(input));
    case 'running-belay':
      return paceRunning(input, stretchPlaces(input));
    case 'pitched-belay':
      return pacePitched(input, stretchPlaces(input));
    case 'belayed-crossing':
      return paceCrossing(input, stretchPlaces(input));
    case 'none-holds':
    case 'no-data':
      return withoutTime;
  }
}

function paceRoped(input: StretchInput, { lengthM }: StretchPlaces): StretchPace {
  const { figures, walkingRule, own, party } = input;
  const walkingS = walkedS({
    ...input,
    ...(walkingRule === undefined ? {} : { rule: walkingRule }),
    ...(own === undefined ? {} : { own }),
  });
  if (Number.isNaN(walkingS)) return withoutTime;
  const { lowFactor, highFactor } = figures.walking;
  const factor = { quick: lowFactor, usual: 1, slow: highFactor };
  const events = party.climbers.map((_, who): PaceEvent => {
    return { who, what: 'walk', fromS: 0, toS: walkingS, fromM: 0, toM: lengthM };
  });
  return {
    ...withoutTime,
    time: timeSpan((level) => walkingS * factor[level]),
    parts: { ...noParts, walkingS },
    events: input.withEvents === true ? events : [],
  };
}

/** The anchor's two pieces stand before the crossing. */
function paceCrossing(input: StretchInput, places: StretchPlaces): StretchPace {
  const { figures, own, party, snow } = input;
  const team = { lengthM: places.lengthM, climbers: party.climbers.length };
  const time = timeSpan((level) => crossingS(team, figures, level, own));
  const piece: PlacedPiece = {
    ...places.onLine(0),
    placement: bestPlacement[snow.hardness],
    captureDevice: false,
  };
  return {
    ...withoutTime,
    time,
    parts: { ...noParts, crossingS: time.defaultS },
    pieces: [piece, piece],
    crossings: 1,
    stops: 1,
    pickets: 2,
    events: input.withEvents === true ? crossingEvents(team, figures, own) : [],
  };
}
