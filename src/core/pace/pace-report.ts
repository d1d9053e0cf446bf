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

/** One stretch on even ground, standing on one piece and gathering when the pieces are used up. */
export function paceReport(question: PaceQuestion): Result<PaceReport, Problem> {
  const { lengthM, mode, party = defaultParty, actsS = {} } = question;
  const { snow = { hardness: 'P', wetness: 'D' }, figures = defaultFigures, own = usualPace } = question;
  if (!(lengthM > 0) || !Number.isFinite(lengthM)) {
    return wrong(
      'length',
      `a length of ${lengthM} m, expected more than 0`,
      'Give the length of the stretch in metres.',
    );
  }
  for (const [act, seconds] of Object.entries(actsS)) {
    if (!(seconds >= 0) || !Number.isFinite(seconds)) {
      return wrong(`act ${act}`, `${seconds} s for ${act}, expected 0 or more`, 'Give seconds.');
    }
  }
  switch (mode) {
    case 'roped':
      return ok({ ...nothing, timeS: levelWalkS() });
    case 'running-belay':
      return running();
    case 'pitched-belay':
      return pitched();
    case 'belayed-crossing': {
      const timeS = crossingS({ lengthM, climbers: party.climbers.length }, figures, 'usual', own);
      return ok({ ...nothing, timeS, piecesPlaced: 2, stops: 1 });
    }
    case 'none-holds':
    case 'no-data':
      return wrong(
        'mode',
        `no time for ${mode}`,
        'Ask for roped, running-belay, pitched-belay or belayed-crossing.',
      );
  }

  function levelWalkS(): number {
    const { walking } = figures;
    const rate = { up: walking.munterUp, levelOrDown: walking.munterDown };
    return (
      munterS({ lengthM, riseM: 0 }, rate) *
      snowAndRestFactor(snow.hardness, walking) *
      walkingFactorAt(own, 0)
    );
  }

  function running(): Result<PaceReport, Problem> {
    const { climbers, rope, rack } = party;
    const standard = belayActs(snow, figures, 'usual', own);
    const speedMS = question.speedMS ?? runningSpeedMS(figures, 'usual', own);
    const spacingM = question.spacingM ?? rope.intervalM;
    if (standard === null) return onIce();
    if (climbers.length < 2) return tooFewClimbers();
    if (rack.pickets < 2) {
      return wrong(
        'pickets',
        `${rack.pickets} pickets, expected 2 or more`,
        'Carry two pickets or choose another mode.',
      );
    }
    if (!(speedMS > 0) || !Number.isFinite(speedMS)) {
      return wrong('speed', `a speed of ${speedMS} m/s, expected more than 0`, 'Give metres a second.');
    }
    if (!(spacingM >= 1 && spacingM <= rope.intervalM + 1e-9)) {
      const expected = `expected 1 m to the interval of ${rope.intervalM} m`;
      return wrong(
        'spacing',
        `pieces every ${spacingM} m, ${expected}`,
        'Give a spacing no longer than the interval.',
      );
    }
    const acts = {
      placeS: actsS.place ?? standard.placeS,
      clipS: actsS.clip ?? standard.clipS,
      removeS: actsS.remove ?? standard.removeS,
      stanceS: actsS.stance ?? standard.stanceS,
      handoverS: actsS.handover ?? standard.handoverS,
    };
    const { timeS, rotations, gatherings, piecesPlaced, stops } = runRunningBelay({
      lengthM,
      climbers: climbers.length,
      intervalM: rope.intervalM,
      spacingM,
      pickets: rack.pickets,
      captureDevices: 0,
      speedMS,
      acts,
      lastLeads: lastMayLead(party, question.lastLeads === true),
      withoutEvents: true,
    });
    return ok({ timeS, rotations, gatherings, piecesPlaced, stops });
  }

  function pitched(): Result<PaceReport, Problem> {
    const standard = pitchActs(snow, party.climbers.length, figures, 'usual', own);
    const pitchM = longestPitchM(party, figures);
    if (standard === null) return onIce();
    if (party.climbers.length < 2) return tooFewClimbers();
    if (pitchM < 1) {
      return wrong(
        'rope',
        `a rope of ${party.rope.lengthM} m, too short for a pitch`,
        'Take a longer rope or fewer climbers.',
      );
    }
    const placeS = actsS.place ?? standard.placeS;
    const run = runPitches({
      lengthM,
      climbers: party.climbers.length,
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
    return ok({
      timeS: run.timeS,
      rotations: 0,
      gatherings: run.pitches,
      piecesPlaced: run.piecesPlaced,
      stops: run.stops,
    });
  }
}

const nothing: PaceReport = { timeS: 0, rotations: 0, gatherings: 0, piecesPlaced: 0, stops: 0 };

const wrong = (place: string, title: string, remedy: string) =>
  fail<Problem>({ code: 'PACE-001', subject: 'pace', place, title, remedy });

const onIce = () =>
  wrong('snow', 'ice, which holds no snow piece', 'Choose other snow: ice screws are outside this model.');

const tooFewClimbers = () =>
  wrong('climbers', 'fewer than two climbers', 'Put at least two climbers on the rope.');
