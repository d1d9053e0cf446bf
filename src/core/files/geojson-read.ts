import type { TrackPoint } from '../domain/track';
import type { Json } from './json';
import { derived } from './geojson-write';
import type { TrackBuilding } from './track-building';
import { markSeen } from './waypoint-marks';

type JsonObject = { [key: string]: Json };

const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const asText = (value: Json | undefined): string => (typeof value === 'string' ? value : '');

const lines = ['LineString', 'MultiLineString'];
const exportAgain = 'Export it again as GeoJSON by RFC 7946: WGS 84, longitude first.';

/** Reads GeoJSON (RFC 7946): lines as lines, points as waypoints, areas counted and left out. */
export class GeoJsonReader {
  ignoredShapes = 0;
  timesNotMatching = 0;

  constructor(private readonly building: TrackBuilding) {}

  read(json: Json): void {
    this.refuseOtherSystem(json);
    if (isObject(json) && json['type'] === 'FeatureCollection') {
      this.array(json['features'], '/features').forEach((feature, i) =>
        this.feature(feature, `/features/${i}`),
      );
      return;
    }
    if (isObject(json) && json['type'] === 'Feature') this.feature(json, '');
    else this.geometry(json, {}, '');
  }

  private feature(feature: Json, at: string): void {
    if (!isObject(feature) || feature['type'] !== 'Feature') return this.unexpected(at, 'a Feature');
    const properties = isObject(feature['properties']) ? feature['properties'] : {};
    if (properties[derived] === 'mark')
      return this.drawnMark(feature['geometry'], properties, `${at}/geometry`);
    if (typeof properties[derived] === 'string') {
      this.building.tally.planned += 1;
      return;
    }
    if (feature['geometry'] !== null) this.geometry(feature['geometry'], properties, `${at}/geometry`);
  }

  /** A mark's drawn extent: its positions, told together by its id. */
  private drawnMark(geometry: Json | undefined, properties: JsonObject, at: string): void {
    if (!isObject(geometry)) return this.unexpected(at, 'a geometry');
    const coordinates = this.array(geometry['coordinates'], `${at}/coordinates`);
    const parts = geometry['type'] === 'MultiLineString' ? coordinates : [coordinates];
    for (const part of parts)
      this.array(part, `${at}/coordinates`).forEach((point, i) =>
        this.waypoint(point, properties, `${at}/coordinates/${i}`),
      );
  }

  private geometry(geometry: Json | undefined, properties: JsonObject, at: string): void {
    if (!isObject(geometry)) return this.unexpected(at, 'a geometry');
    const type = geometry['type'];
    if (type === 'GeometryCollection') {
      const members = this.array(geometry['geometries'], `${at}/geometries`);
      members.forEach((member, i) => this.geometry(member, properties, `${at}/geometries/${i}`));
    } else if (typeof type === 'string' && lines.includes(type)) this.line(geometry, properties, at);
    else if (type === 'Point') this.waypoint(geometry['coordinates'], properties, `${at}/coordinates`);
    else if (type === 'MultiPoint') {
      const points = this.array(geometry['coordinates'], `${at}/coordinates`);
      points.forEach((point, i) => this.waypoint(point, properties, `${at}/coordinates/${i}`));
    } else if (type === 'Polygon' || type === 'MultiPolygon') this.ignoredShapes += 1;
    else this.unexpected(`${at}/type`, 'a kind of geometry that RFC 7946 knows');
  }

  private line(geometry: JsonObject, properties: JsonObject, at: string): void {
    const coordinates = this.array(geometry['coordinates'], `${at}/coordinates`);
    const isMulti = geometry['type'] === 'MultiLineString';
    const parts = (isMulti ? coordinates : [coordinates]).map((part, p) => {
      const partAt = `${at}/coordinates${isMulti ? `/${p}` : ''}`;
      return this.array(part, partAt).map((point, i) => this.point(point, `${partAt}/${i}`));
    });
    const name = asText(properties['name']);
    this.building.addTrack({ name, kind: 'line', parts: this.timed(parts, properties, isMulti) });
  }

  private waypoint(coordinates: Json | undefined, properties: JsonObject, at: string): void {
    const { position, elevationM } = this.point(coordinates, at);
    const note =
      asText(properties['note']) || asText(properties['description']) || asText(properties['desc']);
    const { id, sym, widthM, bridge, seenOn } = properties;
    const mark = markSeen({ id, kind: sym, widthM, bridge, seenOn });
    this.building.addWaypoint({
      name: asText(properties['name']),
      note,
      symbol: asText(properties['sym']),
      position,
      elevationM,
      ...(mark === null ? {} : { mark }),
    });
  }

  private point(coordinates: Json | undefined, at: string): TrackPoint {
    const [lng, lat, elevation] = this.array(coordinates, at);
    const place = () => at;
    const position = this.building.position(this.asNumber(lng, at), this.asNumber(lat, at), place);
    const elevationM =
      elevation === undefined || elevation === null
        ? null
        : this.building.elevation(this.asNumber(elevation, at)!, place);
    return { position, elevationM, timeMs: null };
  }

  /** Numbers as text are not GeoJSON, whatever they hold. */
  private asNumber(value: Json | undefined, at: string): number | undefined {
    if (value === undefined || typeof value === 'number') return value;
    return this.building.refuser.refuse(
      '019',
      at,
      `found ${JSON.stringify(value).slice(0, 40)}, not a number`,
      exportAgain,
    );
  }

  /** Times as exporters write them beside the coordinates, taken only where there is one for every point. */
  private timed(parts: TrackPoint[][], properties: JsonObject, isMulti: boolean): TrackPoint[][] {
    const nested = isObject(properties['coordinateProperties'])
      ? properties['coordinateProperties']['times']
      : undefined;
    const times = nested ?? properties['coordTimes'];
    if (!Array.isArray(times)) return parts;
    const ofPart = isMulti ? times : [times];
    const fits = parts.every((part, p) => {
      const own = ofPart[p];
      return Array.isArray(own) && own.length === part.length;
    });
    if (!fits || ofPart.length !== parts.length) {
      this.timesNotMatching += 1;
      return parts;
    }
    return parts.map((part, p) => {
      const own = ofPart[p];
      return part.map((point, i) => {
        const time = (own as Json[])[i];
        return typeof time === 'string' ? { ...point, timeMs: this.building.time(time) } : point;
      });
    });
  }

  /** RFC 7946 §4: WGS 84 only. An older file that says otherwise would be put in the wrong place. */
  private refuseOtherSystem(json: Json): void {
    const crs = isObject(json) ? json['crs'] : undefined;
    if (crs === undefined || crs === null) return;
    const name = isObject(crs) && isObject(crs['properties']) ? crs['properties']['name'] : undefined;
    if (typeof name === 'string' && /(CRS84|EPSG:+4326)$/.test(name)) return;
    this.building.refuser.refuse(
      '043',
      '/crs',
      `the coordinates are in another system (${JSON.stringify(name ?? crs).slice(0, 80)})`,
      exportAgain,
    );
  }

  private array(value: Json | undefined, at: string): Json[] {
    return Array.isArray(value) ? value : this.unexpected(at, 'a list');
  }

  private unexpected(at: string, expected: string): never {
    return this.building.refuser.refuse(
      '006',
      at === '' ? 'the top level' : at,
      `expected ${expected}`,
      exportAgain,
    );
  }
}
