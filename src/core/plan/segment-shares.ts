import { variants } from '../domain/mode';
import type { Segment } from '../domain/segment';
import type { Station } from '../domain/station';
import { lookupIn, type SlipLookup } from './slip-lookup';
import type { SlipTables } from '../slip/tables';
import { stationsWithin } from './borders';

/**
 * How slips end at a segment's steepest station, for every variant the team could try there: what the slip card shows.
 * Simulated there and then, which takes tens of milliseconds: for one segment at a time. Empty without ground data.
 */
export function segmentShares(
  segment: Pick<Segment, 'fromM' | 'toM' | 'snow' | 'goingDown'>,
  stations: readonly Station[],
  tables: SlipTables,
): Segment['shares'] {
  return sharesWith(segment, stations, lookupIn(tables), tables.party.rack.captureDevices > 0);
}

/** The same with any slip model. */
export function sharesWith(
  segment: Pick<Segment, 'fromM' | 'toM' | 'snow' | 'goingDown'>,
  stations: readonly Station[],
  lookup: SlipLookup,
  hasDevices: boolean,
): Segment['shares'] {
  const steepest = steepestStation(segment, stations);
  if (steepest?.designSlopeDeg == null) return {};
  const place = {
    snow: segment.snow,
    slopeDeg: steepest.designSlopeDeg,
    slopeSigmaDeg: steepest.slopeSigmaDeg ?? 0,
    betaDeg: steepest.betaDeg ?? 0,
    goingDown: segment.goingDown,
  };
  const tried = variants.filter(
    (variant) => variant !== 'running-capture' || (hasDevices && !segment.goingDown),
  );
  return Object.fromEntries(tried.map((variant) => [variant, lookup.sharesAt({ ...place, variant })]));
}

function steepestStation(
  segment: { readonly fromM: number; readonly toM: number },
  stations: readonly Station[],
): Station | null {
  const { first, end } = stationsWithin(stations, segment);
  const inside = stations.slice(first, end).filter(({ designSlopeDeg }) => designSlopeDeg !== null);
  return inside.reduce<Station | null>(
    (steepest, station) =>
      steepest === null || (station.designSlopeDeg ?? 0) > (steepest.designSlopeDeg ?? 0)
        ? station
        : steepest,
    null,
  );
}
