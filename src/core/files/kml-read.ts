import type { TrackPoint } from '../domain/track';
import type { TrackBuilding } from './track-building';
import type { XmlHandlers, XmlTag } from './xml';

interface Geometry {
  readonly kind: 'LineString' | 'Point';
  coordinates: string | null;
  altitudeMode: string;
}

/**
 * Reads KML 2.x: each Placemark with LineStrings is a line of as many parts, each with a Point a waypoint. Altitudes count
 * only where they are said to be absolute (OGC 12-007r2, altitudeMode: by default they are to be ignored).
 */
export class KmlReader implements XmlHandlers {
  ignoredAltitudes = 0;
  ignoredShapes = 0;
  private path: string[] = [];
  private name: string | null = null;
  private description = '';
  private collected: string | null = null;
  private geometry: Geometry | null = null;
  private parts: TrackPoint[][] = [];
  private placemarks = 0;

  constructor(private readonly building: TrackBuilding) {}

  open(tag: XmlTag, place: () => string): void {
    if (this.collected !== null)
      this.building.refuser.refuse(
        '042',
        place(),
        `the element "${tag.local}" stands inside "${this.path.at(-1)!}", which holds text only`,
        'Export the track again.',
      );
    const parent = this.path.at(-1);
    if (parent === undefined && tag.local !== 'kml')
      this.building.refuser.refuse(
        '012',
        place(),
        `the root element is "${tag.local}", not kml`,
        'Open a KML file.',
      );
    if (parent !== undefined && this.isLost(tag.local))
      this.building.refuser.refuse(
        '041',
        place(),
        `"${tag.local}" stands inside "${parent}", where KML does not allow it`,
        'Export the track again.',
      );
    this.path.push(tag.local);
    if (tag.local === 'Placemark') {
      this.placemarks += 1;
      this.name = null;
      this.description = '';
      this.parts = [];
    } else if (tag.local === 'LineString' || tag.local === 'Point')
      this.geometry = { kind: tag.local, coordinates: null, altitudeMode: '' };
    else if (['Polygon', 'LinearRing', 'Model', 'Track', 'MultiTrack'].includes(tag.local))
      this.ignoredShapes += 1;
    const isOfPlacemark = parent === 'Placemark' && (tag.local === 'name' || tag.local === 'description');
    const isOfGeometry =
      (parent === 'LineString' || parent === 'Point') &&
      (tag.local === 'coordinates' || tag.local === 'altitudeMode');
    if (isOfPlacemark || isOfGeometry) this.collected = '';
  }

  text(chars: string): void {
    if (this.collected !== null) this.collected += chars;
  }

  close(tag: XmlTag, place: () => string): void {
    this.path.pop();
    const text = this.collected;
    this.collected = null;
    if (text !== null) this.takeText(tag.local, text, place);
    else if (tag.local === 'LineString' || tag.local === 'Point') this.closeGeometry(place);
    else if (tag.local === 'Placemark')
      this.building.addTrack({ name: this.name ?? '', kind: 'line', parts: this.parts });
  }

  /** A placemark in a placemark, a shape in a shape or outside of all: one of the two would be lost in silence. */
  private isLost(local: string): boolean {
    if (local === 'Placemark') return this.path.includes('Placemark');
    if (local !== 'LineString' && local !== 'Point') return false;
    return this.geometry !== null || !this.path.includes('Placemark');
  }

  private takeText(local: string, text: string, place: () => string): void {
    if (local === 'name') this.name = text.trim();
    else if (local === 'description') this.description = text.trim();
    else if (local === 'altitudeMode') this.geometry!.altitudeMode = text.trim();
    else if (this.geometry!.coordinates === null) this.geometry!.coordinates = text;
    else
      this.building.refuser.refuse(
        '042',
        place(),
        'coordinates stand twice in one shape',
        'Export the track again.',
      );
  }

  private closeGeometry(place: () => string): void {
    const geometry = this.geometry!;
    this.geometry = null;
    const isAbsolute = geometry.altitudeMode === 'absolute';
    const tuples = (geometry.coordinates ?? '').split(/\s+/).filter((tuple) => tuple !== '');
    const points = tuples.map((tuple, i) => this.point(tuple, i, isAbsolute, place));
    if (geometry.kind === 'LineString') this.parts.push(points);
    else
      for (const { position, elevationM } of points)
        this.building.addWaypoint({
          name: this.name ?? '',
          note: this.description,
          symbol: '',
          position,
          elevationM,
        });
  }

  private point(tuple: string, i: number, isAbsolute: boolean, place: () => string): TrackPoint {
    const where = () => `placemark ${this.placemarks}, point ${i + 1}, ${place()}`;
    const [lng, lat, altitude, ...more] = tuple.split(',');
    if (more.length > 0)
      this.building.refuser.refuse(
        '020',
        where(),
        `"${tuple.slice(0, 60)}" has more than three numbers: a decimal comma?`,
        'Export the track again with decimal points and a space between points.',
      );
    const position = this.building.position(lng, lat, where);
    if (altitude === undefined || altitude === '') return { position, elevationM: null, timeMs: null };
    const elevationM = this.building.elevation(altitude, where);
    if (!isAbsolute) this.ignoredAltitudes += 1;
    return { position, elevationM: isAbsolute ? elevationM : null, timeMs: null };
  }
}
