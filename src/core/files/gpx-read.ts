import type { MarkSeen, TrackPoint } from '../domain/track';
import { KeptExtension, lost } from './gpx-extensions';
import { TrackBuilding } from './track-building';
import { markSeen } from './waypoint-marks';
import { attributeOf, type XmlHandlers, type XmlTag } from './xml';

const gpxNamespaces = new Set(['http://www.topografix.com/GPX/1/0', 'http://www.topografix.com/GPX/1/1']);

/** Our own elements inside `extensions`. */
export const ownNamespace = 'urn:firnward:1';

interface Point {
  readonly path: string;
  readonly tag: string;
  readonly position: TrackPoint['position'];
  readonly texts: Map<string, string>;
  /** Written by us at a segment's border: not a point of the line. */
  isBorder: boolean;
  /** Written by us from a plan: planned anew, so not read. */
  isPlanned: boolean;
  /** Written by us: a mark. */
  mark: MarkSeen | null;
  readonly kept: KeptExtension;
}

/** What may stand directly inside what: a point or segment anywhere else would be lost in silence. */
const parentOf: Readonly<Record<string, string>> = {
  trk: 'gpx',
  rte: 'gpx',
  wpt: 'gpx',
  trkseg: 'gpx/trk',
  trkpt: 'gpx/trk/trkseg',
  rtept: 'gpx/rte',
};
const insideSegment = new Set(['trkpt', 'extensions']);
const pointTexts = new Set(['ele', 'time', 'name', 'desc', 'cmt', 'sym']);

function markOfTag(tag: XmlTag): MarkSeen | null {
  const width = attributeOf(tag, 'width-m');
  return markSeen({
    id: attributeOf(tag, 'id'),
    kind: attributeOf(tag, 'kind'),
    widthM: width === undefined ? null : Number(width),
    bridge: attributeOf(tag, 'bridge'),
    seenOn: attributeOf(tag, 'seen-on'),
  });
}

const lastOf = (path = 'nothing'): string => path.slice(path.lastIndexOf('/') + 1);

/** Reads GPX 1.0 and 1.1 by local names in the root's own namespace, element by element. */
export class GpxReader implements XmlHandlers {
  /** GPX 1.0, no namespace or an unusual one: worth a note. */
  unusualRoot: string | null = null;
  private namespace: string | null = null;
  /** Path of every open element; those of other namespaces stand in braces. */
  private readonly paths: string[] = [];
  /** Depth at which `extensions` began; what is inside is not ours to judge. */
  private extensionsFrom = Infinity;
  private name: string | null = null;
  /** Text of the element being read, if it is one whose text counts. */
  private collected: string | null = null;
  private parts: TrackPoint[][] = [];
  /** Parts that are segments of a plan we wrote: pieces of one line. */
  private planned = new Set<readonly TrackPoint[]>();
  private point: Point | null = null;
  private pointNumber = 0;
  private wholePoints = 0;

  constructor(private readonly building: TrackBuilding) {}

  open(tag: XmlTag, place: () => string): void {
    if (this.namespace === null) this.root(tag, place);
    if (this.collected !== null) this.refuseInside(tag.local, place);
    const isOwnWord = tag.uri === this.namespace;
    const parent = this.paths.at(-1) ?? '';
    this.paths.push(isOwnWord ? (parent === '' ? tag.local : `${parent}/${tag.local}`) : `${parent}/{}`);
    if (!isOwnWord || this.paths.length > this.extensionsFrom) {
      this.openExtension(tag);
      return;
    }
    this.checkParent(tag.local, parent, place);
    if (tag.local === 'extensions') this.extensionsFrom = this.paths.length;
    if (tag.local === 'trk' || tag.local === 'rte') {
      this.name = null;
      this.parts = tag.local === 'rte' ? [[]] : [];
    } else if (tag.local === 'trkseg') this.parts.push([]);
    else if (tag.local === 'trkpt' || tag.local === 'rtept' || tag.local === 'wpt')
      this.openPoint(tag, place);
    else if (this.wantsText(tag.local, parent)) this.collected = '';
  }

  text(chars: string): void {
    if (this.collected !== null) this.collected += chars;
    else this.point?.kept.text(chars);
  }

  close(tag: XmlTag, place: () => string): void {
    const path = this.paths.pop();
    const depth = this.paths.length + 1;
    if (tag.uri !== this.namespace || depth > this.extensionsFrom) {
      if (tag.uri !== ownNamespace) this.point?.kept.close(tag);
      return;
    }
    if (depth === this.extensionsFrom) this.extensionsFrom = Infinity;
    if (this.collected !== null) this.takeText(tag.local, place);
    else if (tag.local === 'trkpt' || tag.local === 'rtept' || tag.local === 'wpt') this.closePoint(place);
    else if (path === 'gpx/trk' || path === 'gpx/rte') {
      const kind = path === 'gpx/trk' ? 'track' : 'route';
      this.building.addTrack({ name: this.name ?? '', kind, parts: this.wholeParts() });
      this.parts = [];
    }
  }

  /** Line points read whole so far. */
  get readablePoints(): number {
    return this.wholePoints;
  }

  /** What stands open when the file is cut off, kept if the user wants that. */
  keepOpen(): void {
    this.building.addTrack({
      name: `${this.name ?? ''} (incomplete)`.trim(),
      kind: 'track',
      parts: this.wholeParts(),
    });
  }

  /** The parts as they were before we cut the line into the segments of a plan. */
  private wholeParts(): TrackPoint[][] {
    const whole: TrackPoint[][] = [];
    let joinsOn = false;
    for (const part of this.parts) {
      const isPlanned = this.planned.has(part);
      const [end, start] = [whole.at(-1)?.at(-1)?.position, part[0]?.position];
      const isShared = end !== undefined && start !== undefined && end[0] === start[0] && end[1] === start[1];
      if (joinsOn && isPlanned) whole.push([...whole.pop()!, ...part.slice(isShared ? 1 : 0)]);
      else whole.push([...part]);
      joinsOn = isPlanned;
    }
    return whole;
  }

  private root(tag: XmlTag, place: () => string): void {
    if (tag.local !== 'gpx')
      this.building.refuser.refuse(
        '012',
        place(),
        `the root element is "${tag.local}", not gpx`,
        'Open a GPX file.',
      );
    this.namespace = tag.uri;
    if (tag.uri === '') this.unusualRoot = 'GPX without a namespace';
    else if (tag.uri.endsWith('/GPX/1/0')) this.unusualRoot = 'GPX 1.0';
    else if (!gpxNamespaces.has(tag.uri)) this.unusualRoot = `unusual namespace "${tag.uri.slice(0, 80)}"`;
  }

  private openExtension(tag: XmlTag): void {
    if (this.point === null) {
      const part = this.parts.at(-1);
      if (tag.uri === ownNamespace && tag.local === 'segment' && part !== undefined) this.planned.add(part);
    } else if (tag.uri !== ownNamespace) this.point.kept.open(tag);
    else if (tag.local === 'border') this.point.isBorder = true;
    else if (tag.local === 'planned') this.point.isPlanned = true;
    else if (tag.local === 'mark') this.point.mark = markOfTag(tag);
  }

  private refuseInside(local: string, place: () => string): never {
    return this.building.refuser.refuse(
      '042',
      place(),
      `the element "${local}" stands inside "${lastOf(this.paths.at(-1))}", which holds text only`,
      'Export the track again.',
    );
  }

  private checkParent(local: string, parent: string, place: () => string): void {
    const expected = parentOf[local];
    const isLost =
      (expected !== undefined && expected !== parent) ||
      (parent === 'gpx/trk/trkseg' && !insideSegment.has(local)) ||
      (local === 'gpx' && parent !== '');
    if (isLost)
      this.building.refuser.refuse(
        '041',
        place(),
        `"${local}" stands inside "${lastOf(parent)}", where GPX does not allow it`,
        'Export the track again.',
      );
  }

  private wantsText(local: string, parent: string): boolean {
    if (this.point !== null) return pointTexts.has(local) && parent === this.point.path;
    return local === 'name' && (parent === 'gpx/trk' || parent === 'gpx/rte');
  }

  private openPoint(tag: XmlTag, place: () => string): void {
    if (tag.local !== 'wpt') this.pointNumber = this.parts.at(-1)!.length + 1;
    const where = () => this.pointPlace(tag.local, place);
    const position = this.building.position(attributeOf(tag, 'lon'), attributeOf(tag, 'lat'), where);
    const path = this.paths.at(-1)!;
    this.point = {
      path,
      tag: tag.local,
      position,
      texts: new Map(),
      isBorder: false,
      isPlanned: false,
      mark: null,
      kept: new KeptExtension(),
    };
  }

  private pointPlace(tag: string, place: () => string): string {
    const what = tag === 'wpt' ? 'waypoint' : 'point';
    const n = tag === 'wpt' ? '' : ` ${this.pointNumber}`;
    const segment = this.parts.length > 1 ? `segment ${this.parts.length}, ` : '';
    return `${tag === 'wpt' ? '' : segment}${what}${n}, ${place()}`;
  }

  private takeText(local: string, place: () => string): void {
    const text = this.collected!;
    this.collected = null;
    const isSecond = this.point === null ? this.name !== null : this.point.texts.has(local);
    if (isSecond)
      this.building.refuser.refuse(
        '042',
        place(),
        `"${local}" stands twice in one place`,
        'Export the track again.',
      );
    if (this.point === null) this.name = text.trim();
    else this.point.texts.set(local, text);
  }

  private closePoint(place: () => string): void {
    const { building } = this;
    const point = this.point!;
    this.point = null;
    const where = () => this.pointPlace(point.tag, place);
    const ele = point.texts.get('ele');
    const elevationM = ele === undefined ? null : building.elevation(ele, where);
    const extensions = point.kept.result;
    const isLost = extensions === lost || (extensions !== null && point.tag === 'wpt');
    if (isLost) building.tally.extensions += 1;
    const words = (name: string) => point.texts.get(name)?.trim() ?? '';
    if (point.isPlanned) {
      building.tally.planned += 1;
      return;
    }
    if (point.tag === 'wpt') {
      building.addWaypoint({
        name: words('name'),
        note: words('desc') || words('cmt'),
        symbol: words('sym'),
        position: point.position,
        elevationM,
        ...(point.mark === null ? {} : { mark: point.mark }),
      });
      return;
    }
    const time = point.texts.get('time');
    const timeMs = time === undefined || time.trim() === '' ? null : building.time(time);
    this.wholePoints += 1;
    if (point.isBorder) return;
    const read = { position: point.position, elevationM, timeMs };
    this.parts.at(-1)?.push(extensions === null || isLost ? read : { ...read, extensions });
  }
}
