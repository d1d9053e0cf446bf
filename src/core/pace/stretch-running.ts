import { bestPlacement, defaultFigures } from '../assumptions/figures';
import type { PlacedPiece, TimeParts } from '../domain/segment';
import { belayActs, runningSpeedMS } from './acts';
import { reachM, type AtOneSpeed } from './belay-options';
import { belayS, rotationS } from './rotation-time';
import { chooseStandings, type StandingChoice } from './gatherings';
import { timeSpan, type Level } from './level';
import { candidateStepM } from './places';
import { lastMayLead, isRunning, runningTeam } from './rope-team';
import { runRunningBelay } from './running-belay';
import { noParts, withoutTime, type StretchInput, type StretchPace } from './stretch-input';
import type { StretchPlaces } from './stretch-places';

/** Paces a running belay: gatherings chosen by the ground, then the rope team's movement counted. */
export function paceRunning(input: StretchInput, places: StretchPlaces): StretchPace {
  const { variant, party, figures, snow, own } = input;
  const team = isRunning(variant) ? runningTeam(variant, party) : null;
  const usual = optionsAt('usual');
  if (team === null || usual === null) return withoutTime;

  const choice = chooseGatherings(usual, input, places);
  const standing = standingPieces(choice);
  const gatheringsAtM = choice.standings.map(({ atM }) => atM);
  const counted = runRunningBelay({
    ...usual,
    gatheringsAtM,
    standingPieces: standing,
    withoutEvents: input.withEvents !== true,
  });
  const time = timeSpan((level) => {
    if (level === 'usual') return counted.timeS;
    return belayS({ ...optionsAt(level)!, standingPieces: standing }, gatheringsAtM);
  });
  const parts: TimeParts = {
    ...noParts,
    walkingS: counted.walkingS,
    placementS: counted.placementS,
    gatheringS: counted.gatheringS,
  };
  const micrometres = (m: number) => Math.round(m * 1e6);
  const standingPlaces = new Set([0, ...gatheringsAtM].map(micrometres));
  return {
    ...withoutTime,
    time,
    parts,
    pieces: counted.piecesAtM.map((slopeM): PlacedPiece => ({
      ...places.onLine(slopeM),
      placement: bestPlacement[snow.hardness],
      captureDevice: team.captureDevices > 0 && !standingPlaces.has(micrometres(slopeM)),
    })),
    gatherings: places.gatherings(choice),
    rotations: counted.rotations,
    stops: counted.stops,
    pickets: Math.min(party.rack.pickets, counted.piecesPlaced),
    events: counted.events,
  };

  function optionsAt(level: Level): AtOneSpeed | null {
    const acts = belayActs(snow, figures, level, own);
    if (team === null || acts === null) return null;
    const speedMS = runningSpeedMS(figures, level, own);
    const lastLeads = lastMayLead(party, input.lastTakesLead === true);
    return { ...team, lengthM: places.lengthM, speedMS, acts, lastLeads };
  }
}

/** Places are chosen with the standard acts and pace, so that a team's own pace moves none of them. */
function chooseGatherings(options: AtOneSpeed, input: StretchInput, places: StretchPlaces): StandingChoice {
  const acts = belayActs(input.snow, defaultFigures, 'usual')!;
  const speed = runningSpeedMS(defaultFigures, 'usual');
  // Two to stand on, and one for the lead to go on with.
  const hasTwo = options.pickets >= 3;
  return chooseStandings({
    lengthM: options.lengthM,
    stepM: candidateStepM(options.lengthM, options.spacingM),
    reachM: (pieces) => reachM(options, pieces),
    pieces: ({ runOut }) => (hasTwo && (runOut === null || runOut === 'deadly') ? 2 : 1),
    legS: (lengthM, standing) => rotationS({ ...options, acts, speedMS: speed }, lengthM, standing),
    placeAt: (slopeM) => places.placeAt(slopeM),
  });
}

function standingPieces({ startPieces, standings }: StandingChoice): (atM: number) => number {
  const byPlace = new Map(standings.map(({ atM, pieces }) => [atM, pieces]));
  return (atM) => (atM === 0 ? startPieces : byPlace.get(atM)!);
}
