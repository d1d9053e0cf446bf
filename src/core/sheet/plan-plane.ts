import type { LngLat } from '../domain/coordinates';
import { bearingDeg, distanceM } from '../line/geodesic';
import { fromUtm, isNorthBand, toUtm, type UtmPlace } from '../line/utm';

/** Flat metres around a line, for a small map. */
export interface PlanPlane {
  readonly toXY: (position: LngLat) => readonly [eastM: number, northM: number];
  /** `UTM 26U` where the metres are those of the grid; null: a plane of its own, no grid to draw. */
  readonly gridName: string | null;
  /** Where grid north points, degrees from true north, east positive, at the line's start; null: no grid. */
  readonly gridNorthDeg: number | null;
}

/** UTM where the whole line lies in one zone and half; else a plane about the line's first position. */
export function planPlane(positions: readonly LngLat[]): PlanPlane {
  const places = positions.map(toUtm);
  const first = places[0];
  const isOneZone = places.every(
    (place) =>
      place && first && place.zone === first.zone && isNorthBand(place.band) === isNorthBand(first.band),
  );
  if (first && isOneZone) {
    return {
      gridName: `UTM ${first.zone}${first.band}`,
      gridNorthDeg: gridNorthAt(first),
      toXY: (position) => {
        const place = toUtm(position);
        return place?.zone === first.zone ? [place.eastingM, place.northingM] : [NaN, NaN];
      },
    };
  }
  return localPlane(positions[0]!);
}

function gridNorthAt({ zone, band, eastingM, northingM }: UtmPlace): number {
  const isNorth = isNorthBand(band);
  const at = (northM: number) => fromUtm({ zone, isNorth, eastingM, northingM: northM });
  return ((bearingDeg(at(northingM), at(northingM + 100)) + 540) % 360) - 180;
}

function localPlane([lng0, lat0]: LngLat): PlanPlane {
  const stepDeg = 0.01;
  const northStep = lat0 > 0 ? -stepDeg : stepDeg;
  const northPerDeg = distanceM([lng0, lat0], [lng0, lat0 + northStep]) / stepDeg;
  const eastPerDeg = distanceM([lng0, lat0], [lng0 + stepDeg, lat0]) / stepDeg;
  return {
    gridName: null,
    gridNorthDeg: null,
    toXY: ([lng, lat]) => [(((lng - lng0 + 540) % 360) - 180) * eastPerDeg, (lat - lat0) * northPerDeg],
  };
}
