import { bestPlacement, defaultFigures } from '../assumptions/figures';
import type { PlacedPiece } from '../domain/segment';
import { pitchActs } from './acts';
import { chooseStandings } from './gatherings';
import { timeSpan, type Level } from './level';
import { followersTogether, longestPitchM, pitchS, runPitches, type PitchesOptions } from './pitches';
import { noParts, withoutTime, type StretchInput, type StretchPace } from './stretch-input';
import type { StretchPlaces } from './stretch-places';

/** Paces a pitched belay: stances chosen by the ground within the rope's length, then pitch by pitch. */
export function pacePitched(input: StretchInput, places: StretchPlaces): StretchPace {
  const { party, figures, snow, own } = input;
  const pitchM = longestPitchM(party, figures);
  const usual = pitchActs(snow, party.climbers.length, figures, 'usual', own);
  if (usual === null || pitchM < 1 || party.climbers.length < 2) return withoutTime;

  const team = {
    climbers: party.climbers.length,
    runnerM: figures.pitch.runnerM,
    together: followersTogether(snow.hardness),
    apartM: figures.pitch.followersApartM,
  };
  const standard = { ...team, acts: pitchActs(snow, party.climbers.length, defaultFigures, 'usual')! };
  const choice = chooseStandings({
    lengthM: places.lengthM,
    stepM: Math.max(1, Math.ceil(places.lengthM / 3000)),
    reachM: () => pitchM,
    pieces: () => 2,
    legS: (lengthM) => pitchS(lengthM, standard),
    placeAt: (slopeM) => places.placeAt(slopeM),
  });
  const stancesAtM = choice.standings.map(({ atM }) => atM);
  const run = (level: Level) => {
    const acts = pitchActs(snow, party.climbers.length, figures, level, own)!;
    const withoutEvents = level !== 'usual' || input.withEvents !== true;
    const options: PitchesOptions = { ...team, acts, lengthM: places.lengthM, stancesAtM, withoutEvents };
    return runPitches(options);
  };
  const counted = run('usual');
  const time = timeSpan((level) => (level === 'usual' ? counted : run(level)).timeS);
  const piecesAtM = [...counted.runnersAtM, ...counted.anchorsAtM.flatMap((atM) => [atM, atM])].sort(
    (a, b) => a - b,
  );
  return {
    ...withoutTime,
    time,
    parts: { ...noParts, pitchingS: counted.timeS },
    pieces: piecesAtM.map((slopeM): PlacedPiece => ({
      ...places.onLine(slopeM),
      placement: bestPlacement[snow.hardness],
      captureDevice: false,
    })),
    gatherings: places.gatherings(choice),
    pitches: counted.pitches,
    stops: counted.stops,
    pickets: counted.pickets,
    events: counted.events,
  };
}
