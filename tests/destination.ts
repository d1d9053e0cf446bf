import { Geodesic } from 'geographiclib-geodesic';
import type { LngLat } from '../src/core/domain/coordinates';

/** Where one comes to when leaving in a direction and going straight on over the WGS 84 ellipsoid (GeographicLib). */
export function destination(
  [lngDeg, latDeg]: LngLat,
  { bearingDeg, distanceM }: { readonly bearingDeg: number; readonly distanceM: number },
): LngLat {
  const end = Geodesic.WGS84.Direct(latDeg, lngDeg, bearingDeg, distanceM);
  return [((end.lon2! + 540) % 360) - 180, end.lat2!];
}
