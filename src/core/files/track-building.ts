import type { LngLat } from '../domain/coordinates';
import type { Track, TrackFile, Waypoint } from '../domain/track';
import { wrapLngDeg } from '../line/geodesic';
import { readInstant } from './instant';
import { readDecimal, type NumberFault } from './decimal';
import { limits } from './limits';
import type { Answers, Refuser } from './refusal';
import { zeroFixQuestion } from './track-questions';
import { trackNotes, type PointTally } from './track-notes';

const pointsToSimplify = 'Simplify the track first.';
const numbersToMend =
  'Export the track again with decimal degrees, or mend the place named with a text editor.';

/** Collects one file's tracks, whatever its format: every number checked here, by one rule. */
export class TrackBuilding {
  readonly tally: PointTally = {
    points: 0,
    timesWithoutZone: 0,
    timesUnreadable: 0,
    timesWithSpace: 0,
    extensions: 0,
    emptyParts: 0,
    planned: 0,
  };
  private readonly tracks: Track[] = [];
  private readonly waypoints: Waypoint[] = [];
  private firstBeyond180: string | null = null;

  constructor(
    readonly refuser: Refuser,
    readonly answers: Answers,
  ) {}

  /** A position, or the file is refused. Numbers may come as text (XML) or as they are (JSON). */
  position(lng: string | number | undefined, lat: string | number | undefined, place: () => string): LngLat {
    this.tally.points += 1;
    if (this.tally.points > limits.points)
      this.refuser.refuse('034', place(), `the file has more than ${limits.points} points`, pointsToSimplify);
    return [this.lngDeg(this.coordinate('longitude', lng, place), place), this.latDeg(lat, place)];
  }

  private latDeg(text: string | number | undefined, place: () => string): number {
    const latDeg = this.coordinate('latitude', text, place);
    if (Math.abs(latDeg) > 90)
      this.refuser.refuse('022', place(), `latitude ${latDeg} is outside -90 to 90`, numbersToMend);
    return latDeg;
  }

  private lngDeg(lngDeg: number, place: () => string): number {
    if (lngDeg < -180 || lngDeg > 360)
      this.refuser.refuse('022', place(), `longitude ${lngDeg} is outside -180 to 180`, numbersToMend);
    if (lngDeg > 180) this.firstBeyond180 ??= place();
    return lngDeg >= 180 ? wrapLngDeg(lngDeg) : lngDeg;
  }

  private coordinate(name: string, value: string | number | undefined, place: () => string): number {
    if (value === undefined) this.refuser.refuse('019', place(), `the ${name} is missing`, numbersToMend);
    const number = typeof value === 'number' ? value : readDecimal(value);
    if (typeof number === 'number') return number;
    const shown = String(value).slice(0, 40);
    const [code, title] = faultWords(name, shown)[number];
    return this.refuser.refuse(code, place(), title, numbersToMend);
  }

  /** An elevation, or null where the user said to do without; else the file is refused with that question. */
  elevation(value: string | number, place: () => string): number | null {
    const code = `${this.refuser.letters}-029`;
    const number = typeof value === 'number' ? value : readDecimal(value);
    if (typeof number === 'number' && number >= -12_000 && number <= 100_000) return number;
    if (this.answers[code] === 'yes') return null;
    return this.refuser.refuse(
      '029',
      place(),
      `the elevation "${String(value).slice(0, 40)}" is not a number of metres on Earth`,
      'Mend it, or open the track without its own elevations: they come from the raster anyway.',
      {
        kind: 'yes-no',
        choices: [
          { value: 'yes', label: 'Open it without elevations that cannot be read' },
          { value: 'no', label: 'Do not open it' },
        ],
      },
    );
  }

  /** Milliseconds since 1970, or null, counted, where the text has no zone or is no time. */
  time(text: string): number | null {
    const instant = readInstant(text);
    if (instant === null) this.tally.timesUnreadable += 1;
    else if (instant === 'no zone') this.tally.timesWithoutZone += 1;
    else {
      if (instant.tolerated) this.tally.timesWithSpace += 1;
      return instant.timeMs;
    }
    return null;
  }

  addTrack(track: Track): void {
    const parts = track.parts.filter((part) => part.length > 0);
    this.tally.emptyParts += track.parts.length - parts.length;
    if (parts.length > 0) this.tracks.push({ ...track, parts });
  }

  addWaypoint(waypoint: Waypoint): void {
    this.waypoints.push(waypoint);
  }

  /** The file, once everything is read; refused where a question must be answered first. */
  finish(): TrackFile {
    this.askAboutLongitudes();
    if (this.tracks.length === 0 && this.waypoints.length === 0)
      this.refuser.refuse(
        '040',
        null,
        'the file holds no track, no route and no point',
        'Export the track itself, not only its settings.',
      );
    const tracks = zeroFixQuestion(this.tracks, this.refuser, this.answers);
    return {
      fileName: this.refuser.subject,
      tracks: [
        ...tracks.filter(({ kind }) => kind !== 'route'),
        ...tracks.filter(({ kind }) => kind === 'route'),
      ],
      waypoints: this.waypoints,
      notes: trackNotes(tracks, this.waypoints, this.tally, this.refuser),
    };
  }

  private askAboutLongitudes(): void {
    if (this.firstBeyond180 === null || this.answers[`${this.refuser.letters}-023`] === 'yes') return;
    this.refuser.refuse(
      '023',
      this.firstBeyond180,
      'longitudes run beyond 180, as if counted from 0 to 360',
      'Say whether to convert them.',
      {
        kind: 'yes-no',
        choices: [
          { value: 'yes', label: 'Convert them: 200 becomes -160' },
          { value: 'no', label: 'Do not open it' },
        ],
      },
    );
  }
}

const faultWords = (
  name: string,
  shown: string,
): Readonly<Record<NumberFault, readonly [code: string, title: string]>> => ({
  'not a number': ['019', `the ${name} "${shown}" is not a number`],
  'decimal comma': ['020', `the ${name} "${shown}" has a decimal comma; a point is needed`],
  'other notation': ['021', `the ${name} "${shown}" is not in plain decimal degrees`],
});
