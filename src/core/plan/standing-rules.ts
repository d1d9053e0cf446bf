import type { StretchInput } from '../pace/stretch-input';
import type { LineMark } from './line-marks';

/** Where marks forbid standing together, and where they recommend it, as far to either side as half an interval of rope. */
export function standingRules(
  lineMarks: readonly LineMark[],
  intervalM: number,
): Required<Pick<StretchInput, 'standForbidden' | 'goodPlace'>> {
  const forbidden = lineMarks.filter(({ mark }) => mark.kind === 'no-standing' || mark.kind === 'cornice');
  const good = lineMarks.filter(({ mark }) => mark.kind === 'gathering-place');
  const near = (marks: readonly LineMark[], alongM: number, reachM: number) =>
    marks.some(({ fromM, toM }) => alongM >= fromM - reachM && alongM <= toM + reachM);
  return {
    standForbidden: (alongM) => near(forbidden, alongM, 0),
    goodPlace: (alongM) => near(good, alongM, intervalM / 2),
  };
}
