import type { Segment, TimeSpan } from '../domain/segment';
import type { Placement } from '../domain/snow';
import type { Station } from '../domain/station';
import { toMgrs } from '../line/mgrs';
import {
  countText,
  digits,
  facingText,
  notComputedBrief,
  shortLengthText,
  slopeText,
  unknownBrief,
  unknownText,
} from '../wording/numbers';
import { metresPerFoot, metresPerMile, type Units } from '../wording/units';
import type { BriefRow } from './sheet-data';
import { shortCode } from './sheet-matrix';
import { usualSpacingM } from './spacing';

/** Upright is said once for all. */
const briefPlacement: Readonly<Record<Placement, string>> = {
  upright: '',
  'upright-slot': 'upright in a cut slot',
  't-slot': 'buried T-slot',
  none: 'no snow piece holds (ice: screws)',
};

export const placementKey =
  'Pieces upright, clipped at mid-length, unless said otherwise. ?: unknown. n/c: not computed.';

/** A segment's row in the table, where heads and units stand above. `square`: that in which the whole way lies. */
export function briefRow(
  segment: Segment,
  start: Station | undefined,
  square: string | null,
  units: Units,
): BriefRow {
  const { time, runOut } = segment;
  return {
    from: longFigure(segment.fromM, units),
    fromHeight: shortFigure(start?.elevationM ?? null, units),
    grid: start ? gridText(start, square) : unknownBrief,
    length: shortFigure(segment.lengthM, units),
    rise: riseFigures(segment, units),
    slope:
      segment.slopeMaxDeg === null && segment.aspectDeg === null
        ? unknownText
        : `${slopeText(segment.slopeMaxDeg)} ${facingText(segment.aspectDeg)}`,
    runOut: runOut ?? unknownText,
    code: shortCode(segment.mode, segment.variant),
    manner: briefManner(segment, units),
    gatherings: gatheringCount(segment),
    minutes: time === null ? notComputedBrief : minutes(time.defaultS),
    minutesRange: time === null ? '' : minutesRange(time),
  };
}

const minutes = (seconds: number): string =>
  seconds > 0 && seconds < 30 ? '<1' : digits(Math.round(seconds / 60));

/** Empty where it says no more than the figure before it. */
function minutesRange({ lowS, highS }: TimeSpan): string {
  const [low, high] = [minutes(lowS), minutes(highS)];
  return low === high ? '' : `${low}–${high}`;
}

const shortFigure = (lengthM: number | null, units: Units): string =>
  lengthM === null ? unknownBrief : digits(units === 'metric' ? lengthM : lengthM / metresPerFoot);

const longFigure = (lengthM: number, units: Units): string =>
  digits(lengthM / (units === 'metric' ? 1000 : metresPerMile), 2);

function riseFigures({ ascentM, descentM }: Segment, units: Units): string {
  if (ascentM === null || descentM === null) return unknownBrief;
  const [up, down] = [shortFigure(ascentM, units), shortFigure(descentM, units)];
  const parts = [up === '0' ? '' : `+${up}`, down === '0' ? '' : `\u2212${down}`].filter(
    (part) => part !== '',
  );
  return parts.length === 0 ? '0' : parts.join(' ');
}

/** Ten metres are near enough to find a start by; the square is left out where it stands above. */
function gridText({ position }: Station, square: string | null): string {
  const text = toMgrs(position, 4);
  if (text === null) return '—';
  return square === null ? text : text.slice(square.length + 1);
}

function briefManner(segment: Segment, units: Units): string[] {
  const lines: string[] = [];
  if (segment.mode === 'none-holds') lines.push('another line, other snow, or turn back');
  if (segment.mode === 'pitched-belay') lines.push(countText(segment.pitches, 'pitch', 'pitches'));
  if (segment.pieces.length > 0) {
    const spacingM = segment.mode === 'running-belay' ? usualSpacingM(segment) : null;
    const kinds = new Set(segment.pieces.map(({ placement }) => briefPlacement[placement]));
    const placements = [...kinds].map((words) => (words === '' && kinds.size > 1 ? 'upright' : words));
    const set = placements.join(' or ');
    lines.push(
      (spacingM === null
        ? countText(segment.pieces.length, 'piece')
        : `${digits(segment.pieces.length)} every ${shortLengthText(spacingM, units)}`) +
        (set === '' ? '' : `, ${set}`),
    );
  }
  if (segment.overridden) lines.push('chosen by the guide');
  if (segment.snowChanged) lines.push('snow changed by then');
  return lines;
}

const gatheringCount = ({ mode, gatherings }: Segment): string =>
  gatherings.length === 0
    ? ''
    : mode === 'pitched-belay'
      ? countText(gatherings.length, 'stance')
      : `gather ${digits(gatherings.length)}×`;
