import type { LngLat } from '../domain/coordinates';
import { distanceM } from '../line/geodesic';
import { toUtm } from '../line/utm';

/** Flat metres around a line, for a small map. */
export interface PlanPlane {
  readonly toXY: (position: LngLat) => readonly [eastM: number, northM: number];
  /** `UTM 26U` where the metres are those of the grid; null: a plane of its own, no grid to draw. */
  readonly gridName: string | null;
}

/** UTM where the whole line lies in one zone and half; else a plane about the line's first position. */
export function planPlane(positions: readonly LngLat[]): PlanPlane {
  const places = positions.map(toUtm);
  const first = places[0];
  const isOneZone = places.every(
    (place) => place && first && place.zone === first.zone && place.band >= 'N' === first.band >= 'N',
  );
  if (first && isOneZone) {
    return {
      gridName: `UTM ${first.zone}${first.band}`,
      toXY: (position) => {
        const place = toUtm(position);
        return place?.zone === first.zone ? [place.eastingM, place.northingM] : [NaN, NaN];
      },
    };
  }
  return localPlane(positions[0] ?? [0, 0]);
}

function localPlane([lng0, lat0]: LngLat): PlanPlane {
  const stepDeg = 0.01;
  const northStep = lat0 > 0 ? -stepDeg : stepDeg;
  const northPerDeg = distanceM([lng0, lat0], [lng0, lat0 + northStep]) / stepDeg;
  const eastPerDeg = distanceM([lng0, lat0], [lng0 + stepDeg, lat0]) / stepDeg;
  return {
    gridName: null,
    toXY: ([lng, lat]) => [(((lng - lng0 + 540) % 360) - 180) * eastPerDeg, (lat - lat0) * northPerDeg],
  };
}
