import { modeName, variantName } from '../../core/domain/mode';
import type { Segment } from '../../core/domain/segment';
import { hardnessName, wetnessName } from '../../core/domain/snow';
import { digits, lengthText, riseText, slopeText, stretchText } from '../../core/wording/numbers';
import { clockSinceText, durationText } from '../../core/wording/time';
import type { Units } from '../../core/wording/units';

/** A segment in words, as it stands in one row. */
export interface SegmentRow {
  readonly stretch: string;
  readonly length: string;
  readonly rise: string;
  readonly steepest: string;
  /** What short steps may add that the raster's cells hide: the mode is decided with it. Empty: nothing. */
  readonly hidden: string;
  readonly mode: string;
  /** How the mode is done, and whose word it is. Empty: nothing to add. */
  readonly manner: string;
  readonly snow: string;
  /** Wetness, and whether the day has changed the snow by then. */
  readonly snowMore: string;
  readonly time: string;
  readonly arrive: string;
}

export function segmentRow(segment: Segment, units: Units, start: string | null): SegmentRow {
  const manner = [
    segment.variant && segment.variant !== 'roped' ? variantName[segment.variant] : '',
    segment.overridden ? 'own choice' : '',
  ].filter((words) => words !== '');
  return {
    stretch: stretchText(segment.fromM, segment.toM, units),
    length: lengthText(segment.lengthM, units),
    rise: riseText(segment.ascentM, segment.descentM, units),
    steepest: slopeText(segment.slopeMaxDeg),
    hidden: hiddenText(segment),
    mode: modeName[segment.mode],
    manner: manner.join('; '),
    snow: hardnessName[segment.snow.hardness],
    snowMore: `${wetnessName[segment.snow.wetness]}${segment.snowChanged ? ', changed by then' : ''}`,
    time: durationText(segment.time?.defaultS ?? null),
    arrive: clockSinceText(segment.arrive, start),
  };
}

/** One degree is no more than slopes are wrong by. */
function hiddenText({ slopeMaxDeg, designSlopeMaxDeg }: Segment): string {
  const addedDeg = Math.round(designSlopeMaxDeg ?? 0) - Math.round(slopeMaxDeg ?? 0);
  return addedDeg > 1 ? `+${digits(addedDeg)}° hidden` : '';
}
