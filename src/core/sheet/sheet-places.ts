import type { LngLat } from '../domain/coordinates';
import { markName, type Mark } from '../domain/mark';
import type { Plan } from '../domain/segment';
import { distanceM } from '../line/geodesic';
import { formatPosition } from '../line/notation';
import { lengthText, shortLengthText } from '../wording/numbers';
import type { Units } from '../wording/units';
import type { SheetPlace } from './sheet-data';

const place = (name: string, along: string, position: LngLat, more: string): SheetPlace => ({
  name,
  along,
  decimalDegrees: formatPosition(position, 'decimal-degrees')!,
  mgrs: formatPosition(position, 'mgrs') ?? '—',
  more,
});

/** Start, every gathering place and stance, and end: where a team may have to be found. */
export const rescuePlaces = (plan: Pick<Plan, 'stations' | 'segments'>, units: Units): SheetPlace[] =>
  sitesOf(plan).map(({ name, alongM, position }) => place(name, lengthText(alongM, units), position, ''));

/** What lies so near together is one place to whoever looks for it. Metres. */
const onePlaceM = 5;

/** Gathering places and stances of all ways; what lies in one place stands once, with every name it has. */
export function placesOnce(ways: readonly Pick<Plan, 'stations' | 'segments'>[], units: Units): SheetPlace[] {
  const found: { position: LngLat; place: SheetPlace }[] = [];
  const named = ways.flatMap((way, i) =>
    gatheringSites(way).map((site) => ({ ...site, name: i === 0 ? site.name : `back ${site.name}` })),
  );
  for (const { name, alongM, position } of named) {
    const before = found.find((one) => distanceM(one.position, position) <= onePlaceM);
    if (before === undefined)
      found.push({ position, place: place(name, lengthText(alongM, units), position, '') });
    else
      before.place = { ...before.place, name: `${before.place.name}, ${shorter(before.place.name, name)}` };
  }
  return found.map((one) => one.place);
}

/** `crossing 3`, `back crossing 7`: of the second only `back 7`. */
const shorter = (first: string, second: string): string =>
  second.replace(`back ${first.split(' ')[0]!} `, 'back ');

interface Site {
  readonly name: string;
  readonly alongM: number;
  readonly position: LngLat;
}

const gatheringSites = ({ segments }: Pick<Plan, 'segments'>): Site[] =>
  segments.flatMap(({ id, mode, gatherings }) =>
    gatherings.map(({ alongM, position }) => ({
      name: `${mode === 'pitched-belay' ? 'stance' : 'gather'} ${id}`,
      alongM,
      position,
    })),
  );

/** Start, gathering places, stances and end. */
function sitesOf(plan: Pick<Plan, 'stations' | 'segments'>): Site[] {
  const [first, last] = [plan.stations[0], plan.stations.at(-1)];
  return [
    ...(first ? [{ name: 'start', alongM: first.alongM, position: first.position }] : []),
    ...gatheringSites(plan),
    ...(last ? [{ name: 'end', alongM: last.alongM, position: last.position }] : []),
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

/** What was seen of the crossing in a segment; empty where no mark says. */
export function crossingSeen(plan: Plan, segmentId: number, marks: readonly Mark[], units: Units): string {
  const segment = plan.segments.find(({ id }) => id === segmentId);
  const station = segment && nearestStation(plan, (segment.fromM + segment.toM) / 2);
  const mark = station && nearestMark(marks, station.position, segment.lengthM / 2 + 20);
  return mark ? `${markName[mark.kind]}: ${seenText(mark, units)}` : '';
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

const nearestStation = (plan: Pick<Plan, 'stations'>, alongM: number) =>
  plan.stations.find((station) => station.alongM >= alongM) ?? plan.stations.at(-1);
