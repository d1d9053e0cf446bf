import { defaultFigures, type Figures } from '../assumptions/figures';
import type { Mode } from '../domain/mode';
import type { Problem } from '../domain/problem';
import type { OwnPace } from '../domain/project';
import { fail, ok, type Result } from '../domain/result';
import { defaultParty, type Party } from '../domain/rope-team';
import type { Snow } from '../domain/snow';
import { belayActs, pitchActs, runningSpeedMS } from './acts';
import { usualPace, walkingFactorAt } from './own-pace';
import { crossingS } from './crossing';
import { munterS, snowAndRestFactor } from './walking';
import { followersTogether, longestPitchM, runPitches, stancesAtRopeEndM } from './pitches';
import { lastMayLead } from './rope-team';
import { runRunningBelay } from './running-belay';

/** Acts whose seconds can be given. */
export const reportActs = ['place', 'clip', 'remove', 'stance', 'handover', 'anchor', 'change'] as const;
export type ReportAct = (typeof reportActs)[number];

export interface PaceQuestion {
  readonly lengthM: number;
  readonly mode: Mode;
  readonly party?: Party;
  readonly snow?: Snow;
  readonly figures?: Figures;
  readonly own?: OwnPace;
  /** Of the running belay. */
  readonly speedMS?: number;
  /** By default the interval. */
  readonly spacingM?: number;
  readonly actsS?: Readonly<Partial<Record<ReportAct, number>>>;
  readonly lastLeads?: boolean;
}

export interface PaceReport {
  readonly timeS: number;
  readonly rotations: number;
  readonly gatherings: number;
  readonly piecesPlaced: number;
  readonly stops: number;
}

type Answer = Result<PaceReport, Problem>;

/** One stretch on even ground, standing on one piece and gathering when the pieces are used up. */
export function paceReport(question: PaceQuestion): Answer {
  const asked = { ...usual, ...question };
  const refused = lengthRefused(asked) ?? actsRefused(asked);
  if (refused !== null) return refused;
  switch (question.mode) {
    case 'roped':
      return ok({ ...nothing, timeS: levelWalkS(asked) });
    case 'running-belay':
      return runningBelay(asked);
    case 'pitched-belay':
      return pitchedBelay(asked);
    case 'belayed-crossing':
      return ok({ ...nothing, timeS: wholeCrossingS(asked), piecesPlaced: 2, stops: 1 });
    case 'none-holds':
    case 'no-data':
      return wrong(
        'mode',
        `no time for ${question.mode}`,
        'Ask for roped, running-belay, pitched-belay or belayed-crossing.',
      );
  }
}

const usual = {
  party: defaultParty,
  snow: { hardness: 'P', wetness: 'D' },
  figures: defaultFigures,
  own: usualPace,
  actsS: {},
} as const satisfies Partial<PaceQuestion>;

/** The question with what it leaves open filled in. */
type Asked = PaceQuestion & Required<Pick<PaceQuestion, keyof typeof usual>>;

function lengthRefused({ lengthM }: Asked): Answer | null {
  if (lengthM > 0 && Number.isFinite(lengthM)) return null;
  return wrong(
    'length',
    `a length of ${lengthM} m, expected more than 0`,
    'Give the length of the stretch in metres.',
  );
}

function actsRefused({ actsS }: Asked): Answer | null {
  for (const [act, seconds] of Object.entries(actsS)) {
    if (!(seconds >= 0) || !Number.isFinite(seconds))
      return wrong(`act ${act}`, `${seconds} s for ${act}, expected 0 or more`, 'Give seconds.');
  }
  return null;
}

function levelWalkS({ lengthM, snow, figures: { walking }, own }: Asked): number {
  const rate = { up: walking.munterUp, levelOrDown: walking.munterDown };
  return (
    munterS({ lengthM, riseM: 0 }, rate) * snowAndRestFactor(snow.hardness, walking) * walkingFactorAt(own, 0)
  );
}

const wholeCrossingS = ({ lengthM, party, figures, own }: Asked): number =>
  crossingS({ lengthM, climbers: party.climbers.length }, figures, 'usual', own);

function runningBelay(asked: Asked): Answer {
  const { lengthM, party, snow, figures, own, actsS, lastLeads } = asked;
  const { climbers, rope, rack } = party;
  const standard = belayActs(snow, figures, 'usual', own);
  const speedMS = asked.speedMS ?? runningSpeedMS(figures, 'usual', own);
  const spacingM = asked.spacingM ?? rope.intervalM;
  if (standard === null) return onIce();
  if (climbers.length < 2) return tooFewClimbers();
  const refused = runningRefused({ party, speedMS, spacingM });
  if (refused !== null) return refused;
  const { timeS, rotations, gatherings, piecesPlaced, stops } = runRunningBelay({
    lengthM,
    climbers: climbers.length,
    intervalM: rope.intervalM,
    spacingM,
    pickets: rack.pickets,
    captureDevices: 0,
    speedMS,
    acts: {
      placeS: actsS.place ?? standard.placeS,
      clipS: actsS.clip ?? standard.clipS,
      removeS: actsS.remove ?? standard.removeS,
      stanceS: actsS.stance ?? standard.stanceS,
      handoverS: actsS.handover ?? standard.handoverS,
    },
    lastLeads: lastMayLead(party, lastLeads === true),
    withoutEvents: true,
  });
  return ok({ timeS, rotations, gatherings, piecesPlaced, stops });
}

function runningRefused(given: {
  readonly party: Party;
  readonly speedMS: number;
  readonly spacingM: number;
}): Answer | null {
  const { speedMS, spacingM } = given;
  const { rope, rack } = given.party;
  if (rack.pickets < 2)
    return wrong(
      'pickets',
      `${rack.pickets} pickets, expected 2 or more`,
      'Carry two pickets or choose another mode.',
    );
  if (!(speedMS > 0) || !Number.isFinite(speedMS))
    return wrong('speed', `a speed of ${speedMS} m/s, expected more than 0`, 'Give metres a second.');
  if (!(spacingM >= 1 && spacingM <= rope.intervalM + 1e-9)) {
    const expected = `expected 1 m to the interval of ${rope.intervalM} m`;
    return wrong(
      'spacing',
      `pieces every ${spacingM} m, ${expected}`,
      'Give a spacing no longer than the interval.',
    );
  }
  return null;
}

function pitchedBelay({ lengthM, party, snow, figures, own, actsS }: Asked): Answer {
  const climbers = party.climbers.length;
  const standard = pitchActs(snow, climbers, figures, 'usual', own);
  const pitchM = longestPitchM(party, figures);
  if (standard === null) return onIce();
  if (climbers < 2) return tooFewClimbers();
  if (pitchM < 1)
    return wrong(
      'rope',
      `a rope of ${party.rope.lengthM} m, too short for a pitch`,
      'Take a longer rope or fewer climbers.',
    );
  const placeS = actsS.place ?? standard.placeS;
  const { timeS, pitches, piecesPlaced, stops } = runPitches({
    lengthM,
    climbers,
    stancesAtM: stancesAtRopeEndM(lengthM, pitchM),
    runnerM: figures.pitch.runnerM,
    together: followersTogether(snow.hardness),
    apartM: figures.pitch.followersApartM,
    withoutEvents: true,
    acts: {
      ...standard,
      placeS,
      removeS: actsS.remove ?? standard.removeS,
      anchorS: actsS.anchor ?? 2 * placeS,
      changeS: actsS.change ?? standard.changeS,
    },
  });
  return ok({ timeS, rotations: 0, gatherings: pitches, piecesPlaced, stops });
}

const nothing: PaceReport = { timeS: 0, rotations: 0, gatherings: 0, piecesPlaced: 0, stops: 0 };

const wrong = (place: string, title: string, remedy: string) =>
  fail<Problem>({ code: 'PACE-001', subject: 'pace', place, title, remedy });

const onIce = () =>
  wrong('snow', 'ice, which holds no snow piece', 'Choose other snow: ice screws are outside this model.');

const tooFewClimbers = () =>
  wrong('climbers', 'fewer than two climbers', 'Put at least two climbers on the rope.');
