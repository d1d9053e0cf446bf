import type { Warning } from '../../domain/segment';
import { highGroundM, overlapCode, seamCode } from '../../domain/station';
import { joined, spanning, stretchesWhere, warn, type Planned, type Stretch } from './warn';

/**
 * Profile curvature from which a convex roll is a hint for crevasses, 1/m. Stretching of the surface by steepening; tensile
 * strength of glaciers after D.G. Vaughan, "Relating the occurrence of crevasses to surface strain rates", J. Glaciology 39
 * (1993) 255-266, spans so much that this is a judgement.
 */
export const convexPerM = 0.002;

/** To either side: about the reach of a 3 x 3 window on 30 m cells (judgement). */
const besideM = 30;

/** On a glacier the surface sinks and crevasses move: a survey older than this is a caution (judgement). */
const oldSurveyYears = 5;

/** What the elevation data cannot tell, or only hint at. */
export function groundWarnings(planned: Planned): Warning[] {
  const found = [...zeros(planned), ...seamJumps(planned), ...overlaps(planned)];
  if (!planned.project.onGlacier) return found;
  return [...found, ...crevassesNotCounted(planned), ...convexRolls(planned), ...surveyAge(planned)];
}

/** Ground that is most likely none: grave, for its flat floor asks for no protection at all. */
function zeros({ decided }: Planned): Warning[] {
  const heightM = (i: number): number => decided.conditions[i]!.station.elevationM ?? NaN;
  const high = stretchesWhere(decided, (i) => heightM(i) > highGroundM);
  const isBeside = (zero: Stretch) =>
    high.some(({ fromM, toM }) => fromM < zero.toM + 2 * besideM && toM > zero.fromM - 2 * besideM);
  return joined(
    stretchesWhere(decided, (i) => heightM(i) === 0),
    besideM,
  )
    .filter(isBeside)
    .map((zero) =>
      warn(
        'zeros',
        3,
        'Elevation is exactly 0 here, beside high ground: probably a hole in the raster, filled with zeros. Modes and ' +
          'slopes here mean nothing.',
        zero,
      ),
    );
}

/** Where the line passes between rasters that do not agree: slopes and run-out there may be those of the step. */
function seamJumps({ groundNotes }: Planned): Warning[] {
  return groundNotes
    .filter(({ code }) => code === seamCode)
    .map(({ subject, text }) => warn('seam-jump', 2, `${subject}: ${text}.`));
}

/** Which of two rasters is wrong, nobody knows but who made them. */
function overlaps({ groundNotes }: Planned): Warning[] {
  return groundNotes
    .filter(({ code }) => code === overlapCode)
    .map(({ text }) => warn('rasters-differ', 1, `${text}.`));
}

function crevassesNotCounted({ segments }: Planned): Warning[] {
  const place = spanning(segments.filter(({ mode }) => mode === 'roped'));
  if (place === null) return [];
  return [warn('crevasse-falls', 2, 'Roped travel: crevasse falls are not in these figures.', place)];
}

function convexRolls({ decided }: Planned): Warning[] {
  const mean = meanCurvaturePerM(decided);
  const rolls = stretchesWhere(decided, (i) => mean[i]! >= convexPerM);
  return joined(rolls, 2 * besideM).map((stretch) =>
    warn(
      'convex-roll',
      1,
      'The slope rolls over here: a hint for crevasses. Where it does not, that is no sign of none.',
      stretch,
    ),
  );
}

/** Curvature at a scale that ice feels, and not of every bump that a fine raster shows: mean to either side of a station. */
function meanCurvaturePerM({ conditions }: Planned['decided']): Float64Array {
  const mean = new Float64Array(conditions.length);
  let [first, end, sum, count] = [0, 0, 0, 0];
  const add = (i: number, sign: 1 | -1) => {
    const curvature = conditions[i]?.station.curvaturePerM ?? null;
    if (curvature === null) return;
    sum += sign * curvature;
    count += sign;
  };
  conditions.forEach(({ station }, i) => {
    while ((conditions[end]?.station.alongM ?? Infinity) <= station.alongM + besideM) add(end++, 1);
    while (conditions[first]!.station.alongM < station.alongM - besideM) add(first++, -1);
    mean[i] = count > 0 ? sum / count : NaN;
  });
  return mean;
}

function surveyAge({ terrain, onDate }: Planned): Warning[] {
  return terrain.flatMap(({ name, surveyed }) => {
    if (surveyed === null)
      return [
        warn('survey-age', 2, `${name}: date of survey unknown; on a glacier surface and crevasses move.`),
      ];
    const year = /\d{4}/.exec(surveyed)?.[0];
    const today = /^\d{4}/.exec(onDate ?? '')?.[0];
    if (year === undefined || today === undefined)
      return [warn('survey-age', 1, `${name}: surveyed ${surveyed}; on a glacier check how old that is.`)];
    const years = Number(today) - Number(year);
    if (years <= oldSurveyYears) return [];
    return [
      warn(
        'survey-age',
        2,
        `${name}: surveyed ${surveyed}, about ${years} years ago; on a glacier surface and crevasses have moved.`,
      ),
    ];
  });
}
