import { markName, type Mark } from '../domain/mark';
import type { LinePoint, Project } from '../domain/project';
import type { Gathering, PlacedPiece, Plan, Segment } from '../domain/segment';
import { placementName } from '../domain/snow';
import type { MarkSeen, Track, TrackFile, TrackPoint, Waypoint } from '../domain/track';
import { sliceLine } from '../line/slice';
import { ownNamespace } from './gpx-read';
import { decimals, lngText, trimmed } from './number-text';
import { element, xmlText } from './xml-write';

const head = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="Firnward" xmlns="http://www.topografix.com/GPX/1/1" xmlns:fw="${ownNamespace}">`;

/**
 * A plan as GPX 1.1: one track segment for each segment of the plan, meeting at shared border points; pieces, gathering
 * places and marks as waypoints. What GPX has no words for stands in `extensions`, in our own namespace. Without a plan, the
 * line as one segment.
 */
export function planGpx(project: Project, plan: Plan | null): string {
  const segments = plan?.segments ?? [];
  const slices = sliceLine(
    project.line.points,
    segments.slice(1).map(({ fromM }) => fromM),
  );
  // Segments shorter than a border can tell apart leave fewer slices; then the line stays whole and right.
  const fits = slices.length === segments.length;
  const waypoints = [
    ...project.marks.flatMap(markWaypoints),
    ...segments.flatMap((segment) => segment.pieces.map((piece, i) => pieceWaypoint(piece, segment, i))),
    ...segments.flatMap((segment) =>
      segment.gatherings.map((gathering) => gatheringWaypoint(gathering, segment)),
    ),
  ];
  const trackSegments = slices.map((slice, i) => {
    const segment = fits ? segments[i] : undefined;
    const own = segment === undefined ? '' : `<fw:segment ${attributes(segmentAttributes(segment))}/>`;
    return trackSegment(
      slice.map((point) => pointXml('trkpt', point, point.isBorder ? '<fw:border/>' : '')),
      own,
    );
  });
  return gpx(waypoints, [track(project.line.name, trackSegments)]);
}

/** Tracks and waypoints as they were read, as GPX 1.1, with what other makers wrote into their points. */
export function tracksGpx({ tracks, waypoints }: Pick<TrackFile, 'tracks' | 'waypoints'>): string {
  const routes = tracks.filter(isRoute).map(route);
  const others = tracks
    .filter((each) => !isRoute(each))
    .map(({ name, parts }) =>
      track(
        name,
        parts.map((part) =>
          trackSegment(
            part.map((point) => readPointXml('trkpt', point)),
            '',
          ),
        ),
      ),
    );
  return gpx(waypoints.map(plainWaypoint), [...routes, ...others]);
}

/** A route has no parts; what came from elsewhere in several is written as a track. */
const isRoute = ({ kind, parts }: Track): boolean => kind === 'route' && parts.length === 1;

const gpx = (waypoints: readonly string[], tracks: readonly string[]): string =>
  [head, ...waypoints, ...tracks, '</gpx>', ''].join('\n');

const track = (name: string, segments: readonly string[]): string =>
  ['<trk>', ...nameLine(name), ...segments, '</trk>'].join('\n');

const route = ({ name, parts }: Track): string =>
  ['<rte>', ...nameLine(name), ...parts.flat().map((point) => readPointXml('rtept', point)), '</rte>'].join(
    '\n',
  );

const nameLine = (name: string): string[] => (name === '' ? [] : [element('name', name)]);

const trackSegment = (points: readonly string[], extensions: string): string =>
  [
    '<trkseg>',
    ...points,
    ...(extensions === '' ? [] : [`<extensions>${extensions}</extensions>`]),
    '</trkseg>',
  ].join('\n');

const readPointXml = (tag: 'trkpt' | 'rtept', point: TrackPoint): string =>
  pointXml(tag, point, point.extensions ?? '');

/** The extensions are XML and not escaped: only what this file or the reader made. */
function pointXml(tag: 'trkpt' | 'rtept', point: LinePoint, extensions: string): string {
  const time = point.timeMs === null ? '' : element('time', isoTime(point.timeMs));
  const own = extensions === '' ? '' : `<extensions>${extensions}</extensions>`;
  return `<${tag} ${at(point.position)}>${elevation(point.elevationM)}${time}${own}</${tag}>`;
}

function segmentAttributes(segment: Segment): Record<string, string | number | null> {
  return {
    id: segment.id,
    'from-m': trimmed(segment.fromM, decimals.metres),
    'to-m': trimmed(segment.toM, decimals.metres),
    mode: segment.mode,
    variant: segment.variant,
    hardness: segment.snow.hardness,
    wetness: segment.snow.wetness,
    'time-s': segment.time === null ? null : trimmed(segment.time.defaultS, decimals.seconds),
    note: segment.note === '' ? null : segment.note,
  };
}

interface OwnWaypoint extends Waypoint {
  readonly type: string;
  readonly own: string;
}

function waypoint({ position, elevationM, name, note, symbol, type, own }: OwnWaypoint): string {
  const children = [
    elevation(elevationM),
    element('name', name),
    element('desc', note),
    element('sym', symbol),
    element('type', type),
    own === '' ? '' : `<extensions>${own}</extensions>`,
  ];
  return `<wpt ${at(position)}>${children.join('')}</wpt>`;
}

const plainWaypoint = (read: Waypoint): string =>
  waypoint({
    ...read,
    type: read.mark ? 'mark' : '',
    own: read.mark ? markXml(read.mark) : '',
  });

const markXml = (mark: MarkSeen): string =>
  `<fw:mark ${attributes({
    id: mark.id,
    kind: mark.kind,
    'width-m': mark.widthM,
    bridge: mark.bridge,
    'seen-on': mark.seenOn,
  })}/>`;

/** A mark of several positions is one waypoint each, told together by its id. */
function markWaypoints(mark: Mark): string[] {
  return mark.positions.map((position) =>
    waypoint({
      position,
      elevationM: null,
      name: markName[mark.kind],
      note: mark.note,
      symbol: mark.kind,
      type: 'mark',
      own: markXml(mark),
    }),
  );
}

const pieceWaypoint = (piece: PlacedPiece, segment: Segment, i: number): string =>
  waypoint({
    position: piece.position,
    elevationM: null,
    name: `piece ${segment.id}.${i + 1}`,
    note: placementName[piece.placement] + (piece.captureDevice ? ', with a capture device' : ''),
    symbol: 'piece',
    type: 'piece',
    own: `<fw:planned ${attributes({ kind: 'piece', 'along-m': trimmed(piece.alongM, decimals.metres) })}/>`,
  });

const gatheringWaypoint = (gathering: Gathering, segment: Segment): string =>
  waypoint({
    position: gathering.position,
    elevationM: null,
    name: `gathering in segment ${segment.id}`,
    note: gathering.reason,
    symbol: 'gathering',
    type: 'gathering',
    own: `<fw:planned ${attributes({ kind: 'gathering', 'along-m': trimmed(gathering.alongM, decimals.metres) })}/>`,
  });

const at = ([lng, lat]: readonly [number, number]): string =>
  `lat="${trimmed(lat, decimals.lngLat)}" lon="${lngText(lng)}"`;

const elevation = (elevationM: number | null): string =>
  elevationM === null ? '' : element('ele', trimmed(elevationM, decimals.metres));

const attributes = (values: Readonly<Record<string, string | number | null>>): string =>
  Object.entries(values)
    .flatMap(([name, value]) => (value === null ? [] : [`${name}="${xmlText(String(value))}"`]))
    .join(' ');

const isoTime = (timeMs: number): string => new Date(timeMs).toISOString();
