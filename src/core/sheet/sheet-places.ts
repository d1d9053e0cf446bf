import type { LngLat } from '../domain/coordinates';
import { markName, type Mark } from '../domain/mark';
import type { Plan } from '../domain/segment';
import { distanceM } from '../line/geodesic';
import { formatPosition } from '../line/notation';
import { countText, lengthText, shortLengthText } from '../wording/numbers';
import type { Units } from '../wording/units';
import type { SheetPlace } from './sheet-data';

const place = (name: string, along: string, position: LngLat, more: string): SheetPlace => ({
  name,
  along,
  decimalDegrees: formatPosition(position, 'decimal-degrees') ?? '—',
  mgrs: formatPosition(position, 'mgrs') ?? '—',
  more,
});

/** Start, every gathering place and stance, and end: where a team may have to be found. */
export function rescuePlaces(plan: Pick<Plan, 'stations' | 'segments'>, units: Units): SheetPlace[] {
  const [first, last] = [plan.stations[0], plan.stations.at(-1)];
  return [
    ...(first ? [place('start', lengthText(first.alongM, units), first.position, '')] : []),
    ...plan.segments.flatMap(({ id, mode, gatherings }) =>
      gatherings.map((gathering) =>
        place(
          `${mode === 'pitched-belay' ? 'stance' : 'gather'} in ${id}`,
          lengthText(gathering.alongM, units),
          gathering.position,
          countText(gathering.pieces, 'piece'),
        ),
      ),
    ),
    ...(last ? [place('end', lengthText(last.alongM, units), last.position, '')] : []),
  ];
}

/** Belayed crossings, with what was seen of them. */
export function crossingPlaces(plan: Plan, marks: readonly Mark[], units: Units): SheetPlace[] {
  const crossings = plan.segments.filter((segment) => segment.mode === 'belayed-crossing');
  return crossings.flatMap((segment) => {
    const middleM = (segment.fromM + segment.toM) / 2;
    const station = nearestStation(plan, middleM);
    if (!station) return [];
    const mark = nearestMark(marks, station.position, segment.lengthM / 2 + 20);
    return [
      place(
        mark ? markName[mark.kind] : 'belayed crossing',
        lengthText(segment.fromM, units),
        station.position,
        mark ? seenText(mark, units) : '',
      ),
    ];
  });
}

/** The nearest mark within reach of a position, in words; empty if none. */
export function landmarkText(marks: readonly Mark[], position: LngLat, reachM: number): string {
  const mark = nearestMark(marks, position, reachM);
  return mark ? `${markName[mark.kind]}${mark.note === '' ? '' : `: ${mark.note}`}` : '';
}

function seenText(mark: Mark, units: Units): string {
  const parts = [
    mark.widthM === null ? 'width not said' : `${shortLengthText(mark.widthM, units)} wide`,
    `bridge ${mark.bridge === null ? 'not described' : `looked ${mark.bridge}`}`,
    mark.seenOn === null ? 'date not said' : `seen ${mark.seenOn}`,
    mark.note,
  ];
  return parts.filter((part) => part !== '').join(', ');
}

function nearestMark(marks: readonly Mark[], position: LngLat, reachM: number): Mark | undefined {
  let best: Mark | undefined;
  let bestM = reachM;
  for (const mark of marks) {
    for (const at of mark.positions) {
      const awayM = distanceM(at, position);
      if (awayM <= bestM) [best, bestM] = [mark, awayM];
    }
  }
  return best;
}

const nearestStation = (plan: Plan, alongM: number) =>
  plan.stations.find((station) => station.alongM >= alongM) ?? plan.stations.at(-1);
