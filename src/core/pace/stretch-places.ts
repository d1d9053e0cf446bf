import type { LngLat } from '../domain/coordinates';
import { runOutClasses, type RunOutClass, type Station } from '../domain/station';
import type { StandingPlace } from './exposure';
import type { StandingChoice } from './gatherings';
import { alongOf, between, positionOf, slopeLength, spotAtSlope, type Spot } from './on-line';
import type { StretchGathering, StretchInput } from './stretch-input';

/** A stretch measured along the slope, and what is known about standing on it. */
export interface StretchPlaces {
  /** Along the slope. */
  readonly lengthM: number;
  onLine(slopeM: number): { readonly alongM: number; readonly position: LngLat };
  placeAt(slopeM: number): StandingPlace;
  gatherings(choice: StandingChoice): StretchGathering[];
}

export function stretchPlaces(input: StretchInput): StretchPlaces {
  const { stations, fromM, toM, snow } = input;
  const { alongM: allM, slopeM } = slopeLength(stations);
  const startM = between(allM, slopeM, fromM);
  const lengthM = between(allM, slopeM, toM) - startM;
  const spot = (atM: number) => spotAtSlope(stations, startM + atM);
  const along = (atM: number) => (atM >= lengthM ? toM : alongOf(spot(atM)));
  const onLine = (atM: number) => ({ alongM: along(atM), position: positionOf(spot(atM)) });

  const placeAt = (atM: number): StandingPlace => {
    const here = spot(atM);
    const alongM = alongOf(here);
    const near = nearestStations(here);
    const runOutOf = (station: Station) =>
      input.runOutAt?.(near.length === 1 ? alongM : station.alongM) ??
      station.runOut?.[snow.hardness].class ??
      null;
    return {
      slopeDeg: steepest(near.map(({ designSlopeDeg }) => designSlopeDeg)),
      runOut: worst(near.map(runOutOf)),
      forbidden: input.standForbidden?.(alongM) ?? false,
      good: input.goodPlace?.(alongM) ?? false,
    };
  };

  return {
    lengthM,
    onLine,
    placeAt,
    gatherings: ({ standings }) =>
      standings.map(({ atM, pieces, reason, bad, better }) => ({
        ...onLine(atM),
        pieces,
        reason,
        bad,
        runOut: placeAt(atM).runOut,
        better: better === null ? null : { alongM: along(better.atM), extraS: better.extraS },
      })),
  };
}

/** Where stretches end is half way between two stations: there both speak, and not the one that a rounding makes the nearer. */
function nearestStations({ here, next, part }: Spot): readonly Station[] {
  if (Math.abs(part - 0.5) <= 1e-6) return [here, next];
  return part < 0.5 ? [here] : [next];
}

const steepest = (slopesDeg: readonly (number | null)[]): number | null =>
  slopesDeg.reduce((a, b) => (a === null || b === null ? null : Math.max(a, b)));

const worst = (runOuts: readonly (RunOutClass | null)[]): RunOutClass | null =>
  runOuts.reduce((a, b) =>
    a === null || b === null ? null : runOutClasses.indexOf(a) > runOutClasses.indexOf(b) ? a : b,
  );
