import type { Mark } from '../domain/mark';
import { modeName, variantName } from '../domain/mode';
import type { Plan, Segment } from '../domain/segment';
import { hardnessName, placementName, wetnessName, type Placement, type Snow } from '../domain/snow';
import {
  countText,
  digits,
  facingText,
  lengthText,
  placesAlongText,
  riseText,
  shortLengthText,
  slopeText,
  unknownText,
} from '../wording/numbers';
import { clockBriefText, durationText, rangeText } from '../wording/time';
import type { Units } from '../wording/units';
import { briefRow } from './brief-row';
import type { SheetRow } from './sheet-data';
import { crossingSeen, landmarkText } from './sheet-places';
import { usualSpacingM } from './spacing';

/** Marks this near a segment's start name it. */
const landmarkReachM = 25;

/** The segment table, one row per segment. `snow`: what the line is planned for. */
export function sheetRows(
  plan: Plan,
  marks: readonly Mark[],
  snow: Snow,
  units: Units,
  { square, saysCrossings }: { readonly square: string | null; readonly saysCrossings: boolean },
): SheetRow[] {
  const start = plan.segments[0]?.arrive ?? null;
  let lastLandmark = '';
  return plan.segments.map((segment) => {
    const station = plan.stations.find((one) => one.alongM >= segment.fromM);
    const position = station?.position;
    const landmark = position ? landmarkText(marks, position, landmarkReachM) : '';
    const isNew = landmark !== lastLandmark;
    lastLandmark = landmark;
    return {
      number: digits(segment.id),
      mode: segment.mode,
      from: lengthText(segment.fromM, units),
      fromHeight: shortLengthText(station?.elevationM ?? null, units),
      fromPosition: position ? [position[1].toFixed(5), position[0].toFixed(5)] : [unknownText, unknownText],
      // Both sides of one crossing would name it twice.
      landmark: isNew && saysCrossings ? landmark : '',
      seen:
        saysCrossings && segment.mode === 'belayed-crossing'
          ? crossingSeen(plan, segment.id, marks, units)
          : '',
      length: lengthText(segment.lengthM, units),
      rise: riseText(segment.ascentM, segment.descentM, units),
      slope: groundText(segment),
      modeName: modeName[segment.mode],
      manner: manner(segment, units),
      snow: snowText(segment.snow),
      isOtherSnow: snowText(segment.snow) !== snowText(snow),
      gatherings: gatheringsText(segment, units),
      time: durationText(segment.time?.defaultS ?? null),
      range: segment.time === null ? '' : rangeText(segment.time),
      clock: start === null || segment.arrive === null ? '' : clockBriefText(segment.arrive, start),
      note: segment.note,
      brief: briefRow(segment, station, square, units),
    };
  });
}

const snowText = ({ hardness, wetness }: Snow): string =>
  `${hardnessName[hardness]}, ${wetnessName[wetness]}`;

function groundText({ slopeMaxDeg, aspectDeg, runOut }: Segment): string {
  if (slopeMaxDeg === null && aspectDeg === null && runOut === null) return 'slope and run-out unknown';
  return `${slopeText(slopeMaxDeg)} ${facingText(aspectDeg)}, ${runOut ?? `run-out ${unknownText}`}`;
}

function manner(segment: Segment, units: Units): string[] {
  const lines: string[] = [];
  if (segment.variant !== null && segment.variant !== 'roped') lines.push(variantName[segment.variant]);
  if (segment.mode === 'roped') lines.push('crevasse falls not counted');
  if (segment.mode === 'none-holds') lines.push('another line, other snow, or turn back');
  if (segment.pieces.length > 0) {
    const spacingM = segment.mode === 'running-belay' ? usualSpacingM(segment) : null;
    const spacing = spacingM === null ? '' : ` every ${shortLengthText(spacingM, units)}`;
    lines.push(`${countText(segment.pieces.length, 'piece')}${spacing}: ${placementsText(segment)}`);
  }
  if (segment.mode === 'pitched-belay') lines.push(countText(segment.pitches, 'pitch', 'pitches'));
  if (segment.overridden) lines.push('chosen by the guide');
  if (segment.snowChanged) lines.push('snow changed by then');
  return lines;
}

const placementsText = (segment: Segment): string =>
  [...new Set<Placement>(segment.pieces.map((piece) => piece.placement))]
    .map((placement) => placementName[placement])
    .join('; ');

function gatheringsText(segment: Segment, units: Units): string {
  if (segment.gatherings.length === 0) return '';
  const verb = segment.mode === 'pitched-belay' ? 'stance' : 'gather';
  return `${verb} at ${placesAlongText(
    segment.gatherings.map(({ alongM }) => alongM),
    units,
  )}`;
}
