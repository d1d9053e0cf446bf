import { variants } from '../domain/mode';
import type { Segment } from '../domain/segment';
import type { Station } from '../domain/station';
import { lookupIn, type SlipLookup } from './slip-lookup';
import type { SlipTables } from '../slip/tables';
import { nearestIndex } from './borders';

type Asked = Pick<Segment, 'decidedAt' | 'snow' | 'goingDown'>;

/**
 * How slips end where a segment was decided, for every variant the team could try there: what the slip card shows.
 * Simulated there and then, which takes tens of milliseconds: for one segment at a time. Empty without ground data.
 */
export function segmentShares(
  segment: Asked,
  stations: readonly Station[],
  tables: SlipTables,
): Segment['shares'] {
  return sharesWith(segment, stations, lookupIn(tables), tables.party.rack.captureDevices > 0);
}

/** The same with any slip model. */
export function sharesWith(
  { decidedAt, snow, goingDown }: Asked,
  stations: readonly Station[],
  lookup: SlipLookup,
  hasDevices: boolean,
): Segment['shares'] {
  if (decidedAt.designSlopeDeg === null) return {};
  const station = stations[nearestIndex(stations, decidedAt.alongM)]!;
  const place = {
    snow,
    slopeDeg: decidedAt.designSlopeDeg,
    slopeSigmaDeg: station.slopeSigmaDeg ?? 0,
    betaDeg: station.betaDeg ?? 0,
    goingDown,
  };
  const tried = variants.filter((variant) => variant !== 'running-capture' || (hasDevices && !goingDown));
  return Object.fromEntries(tried.map((variant) => [variant, lookup.sharesAt({ ...place, variant })]));
}
