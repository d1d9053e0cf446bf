import { featureCollection, lineString, multiLineString, point } from '@turf/turf';
import type { Feature } from 'geojson';
import { markName, type Mark } from '../domain/mark';
import type { LngLat } from '../domain/coordinates';
import type { LinePoint, Project } from '../domain/project';
import type { Plan, Segment } from '../domain/segment';
import type { Track, TrackFile, TrackPoint } from '../domain/track';
import { splitAtAntimeridian } from '../line/antimeridian';
import { sliceLine } from '../line/slice';
import { layOutJson } from './json-layout';
import { decimals, fixed, rounded } from './number-text';

type Properties = Readonly<Record<string, unknown>>;

/** The property that tells what was computed from what was drawn: the former are left out when the file is read again. */
export const derived = 'firnwardDerived';

/** A plan as GeoJSON (RFC 7946): the whole line first, then its segments, marks, pieces and gathering places. */
export function planGeoJson(project: Project, plan: Plan | null): string {
  const segments = plan?.segments ?? [];
  const slices = sliceLine(
    project.line.points,
    segments.slice(1).map(({ fromM }) => fromM),
  );
  const fits = slices.length === segments.length;
  return collection([
    ...(project.line.points.length > 1
      ? [lineFeature([project.line.points], { kind: 'line', name: project.line.name })]
      : []),
    // Segments shorter than a border can tell apart leave fewer slices: then only the whole line is drawn.
    ...(fits ? segments : []).map((segment, i) => lineFeature([slices[i]!], segmentProperties(segment))),
    ...project.marks.map(markFeature),
    ...segments.flatMap((segment) => [
      ...segment.pieces.map(({ position, alongM, placement, captureDevice }) =>
        pointFeature(position, null, {
          [derived]: 'piece',
          segment: segment.id,
          alongM: metres(alongM),
          placement,
          captureDevice,
        }),
      ),
      ...segment.gatherings.map(({ position, alongM, pieces, reason }) =>
        pointFeature(position, null, {
          [derived]: 'gathering',
          segment: segment.id,
          alongM: metres(alongM),
          pieces,
          reason,
        }),
      ),
    ]),
  ]);
}

/** Tracks and waypoints as they were read. */
export function tracksGeoJson({ tracks, waypoints }: Pick<TrackFile, 'tracks' | 'waypoints'>): string {
  return collection([
    ...tracks.flatMap(trackFeatures),
    ...waypoints.map(({ name, note, symbol, position, elevationM, mark }) =>
      pointFeature(position, elevationM, {
        name,
        note,
        sym: symbol,
        ...(mark && { id: mark.id, widthM: mark.widthM, bridge: mark.bridge, seenOn: mark.seenOn }),
      }),
    ),
  ]);
}

/** The track, and apart from it the parts of a single point, which no line can hold. */
function trackFeatures({ name, kind, parts }: Track): Feature[] {
  const lines = parts.filter((part) => part.length > 1);
  const points = parts.flatMap(([first, ...more]) =>
    first !== undefined && more.length === 0 ? [first] : [],
  );
  return [
    ...(lines.length > 0 ? [lineFeature(lines, { kind, name })] : []),
    ...points.map(({ position, elevationM }) => pointFeature(position, elevationM, { kind, name })),
  ];
}

const collection = (features: readonly Feature[]): string => layOutJson(featureCollection([...features]));

const metres = (value: number | null) => rounded(value, decimals.metres);

function lineFeature(
  lines: readonly (readonly (LinePoint | TrackPoint)[])[],
  properties: Properties,
): Feature {
  const parts = lines.flatMap(splitAtAntimeridian).filter((part) => part.length > 1);
  const [first] = parts;
  const isOne = parts.length === 1 && first !== undefined;
  const hasTimes = parts.some((part) => part.some(({ timeMs }) => timeMs !== null));
  const times = parts.map((part) =>
    part.map(({ timeMs }) => (timeMs === null ? null : new Date(timeMs).toISOString())),
  );
  const all = hasTimes
    ? { ...properties, coordinateProperties: { times: isOne ? times[0] : times } }
    : properties;
  return isOne
    ? lineString(first.map(coordinate), all)
    : multiLineString(
        parts.map((part) => part.map(coordinate)),
        all,
      );
}

const pointFeature = (position: LngLat, elevationM: number | null, properties: Properties): Feature =>
  point(coordinate({ position, elevationM }), properties);

function coordinate({ position, elevationM }: Pick<LinePoint, 'position' | 'elevationM'>): number[] {
  const lngLat = position.map((degrees) => Number(fixed(degrees, decimals.lngLat)));
  const ele = metres(elevationM);
  return ele === null ? lngLat : [...lngLat, ele];
}

function segmentProperties(segment: Segment): Properties {
  return {
    [derived]: 'segment',
    id: segment.id,
    fromM: metres(segment.fromM),
    toM: metres(segment.toM),
    mode: segment.mode,
    variant: segment.variant,
    snow: segment.snow,
    runOut: segment.runOut,
    slopeMaxDeg: rounded(segment.slopeMaxDeg, decimals.angle),
    timeS: segment.time === null ? null : rounded(segment.time.defaultS, decimals.seconds),
    note: segment.note,
  };
}

/** A drawn extent keeps its own shape; it is marked as none of the lines to plan. */
function markFeature(mark: Mark): Feature {
  const { id, kind, widthM, bridge, seenOn, note, positions } = mark;
  const properties = { name: markName[kind], sym: kind, id, widthM, bridge, seenOn, note };
  const [only, ...more] = positions;
  if (only !== undefined && more.length === 0) return pointFeature(only, null, properties);
  const points = positions.map((position) => ({ position, elevationM: null, timeMs: null }));
  return lineFeature([points], { ...properties, [derived]: 'mark' });
}
