import { descend, secondXml, type Node } from './second-xml';

/** A point as any reader should see it: longitude, latitude, elevation. */
export type Seen = readonly [lng: number, lat: number, ele: number | null];

export interface SecondOpinion {
  readonly lines: readonly (readonly Seen[])[];
  readonly waypoints: readonly Seen[];
  readonly names: readonly string[];
}

const wrapped = (lng: number): number => (lng >= 180 ? lng - 360 : lng);
const number = (text: string | undefined): number => (text === undefined ? NaN : Number(text.trim()));

export function secondGpx(text: string): SecondOpinion {
  const root = secondXml(text).children[0];
  if (root === undefined) return { lines: [], waypoints: [], names: [] };
  const of = (node: Node, local: string) =>
    node.children.filter((each) => each.local === local && each.uri === root.uri);
  const own = (node: Node, local: string) =>
    [...descend(node)].some((each) => each.uri === 'urn:firnward:1' && each.local === local);
  const seen = (node: Node): Seen => {
    const ele = of(node, 'ele')[0]?.text;
    return [
      wrapped(number(node.attributes.get('lon'))),
      number(node.attributes.get('lat')),
      ele === undefined ? null : number(ele),
    ];
  };
  const tracks = of(root, 'trk').map((trk) => ({
    name: of(trk, 'name')[0]?.text.trim() ?? '',
    points: of(trk, 'trkseg').flatMap((segment) =>
      of(segment, 'trkpt').filter((each) => !own(each, 'border')),
    ),
  }));
  const routes = of(root, 'rte').map((rte) => ({
    name: of(rte, 'name')[0]?.text.trim() ?? '',
    points: of(rte, 'rtept'),
  }));
  const lines = [...tracks, ...routes].filter(({ points }) => points.length > 0);
  return {
    lines: lines.map(({ points }) => points.map(seen)),
    waypoints: of(root, 'wpt')
      .filter((each) => !own(each, 'planned'))
      .map(seen),
    names: lines.map(({ name }) => name),
  };
}

export function secondKml(text: string): SecondOpinion {
  const placemarks = [...descend(secondXml(text))].filter(({ local }) => local === 'Placemark');
  const shapes = (node: Node, local: string) => [...descend(node)].filter((each) => each.local === local);
  const seen = (shape: Node): Seen[] => {
    const isAbsolute =
      shape.children.find(({ local }) => local === 'altitudeMode')?.text.trim() === 'absolute';
    const tuples =
      shape.children
        .find(({ local }) => local === 'coordinates')
        ?.text.trim()
        .split(/\s+/) ?? [];
    return tuples
      .filter((tuple) => tuple !== '')
      .map((tuple) => {
        const [lng, lat, altitude] = tuple.split(',');
        const ele = altitude === undefined || altitude === '' || !isAbsolute ? null : number(altitude);
        return [wrapped(number(lng)), number(lat), ele];
      });
  };
  const lines = placemarks
    .map((placemark) => ({
      name: placemark.children.find(({ local }) => local === 'name')?.text.trim() ?? '',
      points: shapes(placemark, 'LineString').flatMap(seen),
    }))
    .filter(({ points }) => points.length > 0);
  return {
    lines: lines.map(({ points }) => points),
    waypoints: placemarks.flatMap((placemark) => shapes(placemark, 'Point').flatMap(seen)),
    names: lines.map(({ name }) => name),
  };
}

interface Loose {
  readonly [key: string]: unknown;
}

export function secondGeoJson(text: string): SecondOpinion {
  const lines: { name: string; points: Seen[] }[] = [];
  const waypoints: Seen[] = [];
  const seen = (position: number[]): Seen => [
    wrapped(position[0] ?? NaN),
    position[1] ?? NaN,
    position[2] ?? null,
  ];
  const take = (geometry: Loose, name: string): void => {
    const coordinates = geometry['coordinates'];
    if (geometry['type'] === 'LineString')
      lines.push({ name, points: (coordinates as number[][]).map(seen) });
    if (geometry['type'] === 'MultiLineString')
      lines.push({ name, points: (coordinates as number[][][]).flat().map(seen) });
    if (geometry['type'] === 'Point') waypoints.push(seen(coordinates as number[]));
    if (geometry['type'] === 'MultiPoint') waypoints.push(...(coordinates as number[][]).map(seen));
    if (geometry['type'] === 'GeometryCollection')
      for (const member of geometry['geometries'] as Loose[]) take(member, name);
  };
  const feature = (value: Loose): void => {
    const properties = (typeof value['properties'] === 'object' ? value['properties'] : null) as Loose | null;
    if (typeof properties?.['firnwardDerived'] === 'string') return;
    const name = properties?.['name'];
    if (value['geometry'] !== null) take(value['geometry'] as Loose, typeof name === 'string' ? name : '');
  };
  const value = JSON.parse(text) as Loose;
  if (value['type'] === 'FeatureCollection') (value['features'] as Loose[]).forEach(feature);
  else if (value['type'] === 'Feature') feature(value);
  else take(value, '');
  const filled = lines.filter(({ points }) => points.length > 0);
  return { lines: filled.map(({ points }) => points), waypoints, names: filled.map(({ name }) => name) };
}
