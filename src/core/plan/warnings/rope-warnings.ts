import type { Segment, Warning } from '../../domain/segment';
import { variantMode, type Mode } from '../../domain/mode';
import { hangsOnOnePiece } from '../../pace/rack-advice';
import { isVariant } from '../states';
import { everywhere, spanning, stretchesWhere, warn, type Planned, type Stretch } from './warn';

/** What the rope, the pieces and the rack ask the team to mind. */
export function ropeWarnings(planned: Planned): Warning[] {
  return [
    ...wholeTeamOnOnePiece(planned),
    ...badGatherings(planned),
    ...knots(planned),
    ...devices(planned),
    ...rack(planned),
    ...lowStretch(planned),
  ];
}

/** A gathering above a deadly run-out that hangs on a single piece. */
function wholeTeamOnOnePiece({ stretches }: Planned): Warning[] {
  return stretches
    .filter(({ input }) => input.mode === 'running-belay')
    .flatMap(({ pace }) => {
      const deadly = pace.gatherings.filter(hangsOnOnePiece);
      const place = spanning(deadly.map(pointOf));
      if (place === null) return [];
      const times = deadly.length === 1 ? 'once' : `${deadly.length} times`;
      const text = `Whole team on one piece above a deadly run-out, ${times}: two need a rack of three or more.`;
      return [warn('one-piece', 3, text, place)];
    });
}

function badGatherings({ stretches }: Planned): Warning[] {
  return stretches.flatMap(({ input, pace, span }) => {
    // The end is where the next mode begins: it is not chosen.
    const bad = pace.gatherings.slice(0, -1).filter((gathering) => gathering.bad);
    const place = spanning(bad.map(pointOf));
    if (place === null) return [];
    const what = input.mode === 'pitched-belay' ? 'stances' : 'gatherings';
    const text = `${bad.length} of ${pace.gatherings.length} ${what} in bad places (deadly or unknown run-out, or no standing).`;
    return [warn('bad-gathering', 2, text, { ...place, fromM: Math.max(span.fromM, place.fromM) })];
  });
}

const pointOf = ({ alongM }: { readonly alongM: number }): Stretch => ({ fromM: alongM, toM: alongM });

/** Brake knots cannot pass clipped pieces: where they come off and go on. */
function knots({ project, decided, segments }: Planned): Warning[] {
  const clipped: ReadonlySet<Mode> = new Set(['running-belay', 'pitched-belay']);
  if (!project.party.rope.brakeKnots) {
    const soloPair = project.onGlacier && project.party.climbers.length <= 3;
    const roped = spanning(segments.filter(({ mode }) => mode === 'roped'));
    if (!soloPair || roped === null) return [];
    const text = 'No brake knots on a rope of two or three on a glacier: they help to hold a crevasse fall.';
    return [warn('no-knots', 1, text, roped)];
  }
  return stretchesWhere(decided, (i) => {
    const state = decided.states[i];
    return state !== undefined && isVariant(state) && clipped.has(variantMode[state]);
  }).map((stretch) =>
    warn(
      'knots-off',
      2,
      'Brake knots come off before this stretch and go on again after it: they cannot pass clipped pieces.',
      stretch,
    ),
  );
}

function devices({ segments, figures }: Planned): Warning[] {
  const place = spanning(segments.filter(({ variant }) => variant === 'running-capture'));
  if (place === null) return [];
  const text =
    `Capture devices are rated to about ${figures.piece.captureDeviceKN} kN: a lead fall must not come onto one. ` +
    'Set an ordinary piece soon after each; these extra pieces are not in the times and counts here.';
  return [warn('device-limit', 2, text, place)];
}

function rack({ project, totals, segments, stretches }: Planned): Warning[] {
  const has = project.party.rack.pickets;
  const short = stretches.filter(({ pace }) => pace.pickets > has).map(({ span }) => span);
  const place = spanning(short);
  if (place !== null) {
    const text = `A stretch needs ${totals.pickets} pieces at one time, the rack has ${has}.`;
    return [warn('rack-short', 3, text, place)];
  }
  // Nothing can be counted where a set mode has no pieces to be set with.
  const without = spanning(segments.filter(needsPieces).filter(() => has < 2));
  return without === null
    ? []
    : [warn('rack-short', 3, `Pieces are needed here, the rack has ${has}.`, without)];
}

const needsPieces = ({ mode }: Segment): boolean =>
  mode === 'running-belay' || mode === 'pitched-belay' || mode === 'belayed-crossing';

function lowStretch({ project }: Planned): Warning[] {
  const { rope, climbers } = project.party;
  const warnings: Warning[] = [];
  if (rope.lowStretch) {
    const text =
      'Low-stretch cord: lead falls onto pieces are barred, so neither a running belay nor leading a pitch is offered.';
    warnings.push(warn('low-stretch', 2, text));
  }
  const neededM = (climbers.length - 1) * rope.intervalM;
  if (neededM > rope.lengthM) {
    const text = `The rope of ${rope.lengthM} m is too short for ${climbers.length} people ${rope.intervalM} m apart (${neededM} m).`;
    warnings.push(warn('rope-short', 3, text, everywhere));
  }
  return warnings;
}
