import type { LngLat } from '../domain/coordinates';
import type { StandingPlace } from './exposure';
import type { StandingChoice } from './gatherings';
import { between, nearestStation, positionOnLine, slopeLength } from './on-line';
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
  const { alongM, slopeM } = slopeLength(stations);
  const startM = between(alongM, slopeM, fromM);
  const lengthM = between(alongM, slopeM, toM) - startM;
  const along = (atM: number) => (atM >= lengthM ? toM : between(slopeM, alongM, startM + atM));
  const onLine = (atM: number) => ({ alongM: along(atM), position: positionOnLine(stations, along(atM)) });

  return {
    lengthM,
    onLine,
    placeAt(atM) {
      const hereM = along(atM);
      const station = nearestStation(stations, hereM);
      const runOut = input.runOutAt?.(hereM) ?? station.runOut?.[snow.hardness].class ?? null;
      return {
        slopeDeg: station.designSlopeDeg,
        runOut,
        forbidden: input.standForbidden?.(hereM) ?? false,
        good: input.goodPlace?.(hereM) ?? false,
      };
    },
    gatherings: ({ standings }) =>
      standings.map(({ atM, pieces, reason, bad, better }) => ({
        ...onLine(atM),
        pieces,
        reason,
        bad,
        better: better === null ? null : { alongM: along(better.atM), extraS: better.extraS },
      })),
  };
}
