import type { Note, Problem, Question } from '../domain/problem';
import { fail, type Result } from '../domain/result';
import type { TrackFile } from '../domain/track';
import { binaryKind, lettersOf, textKind, type FileKind } from './file-kind';
import { GeoJsonReader } from './geojson-read';
import { GpxReader } from './gpx-read';
import { readJson } from './json';
import { KmlReader } from './kml-read';
import { attempt, Refusal, Refuser, type Answers } from './refusal';
import { decodeText, type DecodedText } from './text';
import { TrackBuilding } from './track-building';
import { readXml, type CutOff } from './xml';

export type { Answers } from './refusal';

const openAnother = 'Open a GPX, KML or GeoJSON file.';

/**
 * A track file's bytes as tracks and waypoints: GPX 1.0 and 1.1, KML, GeoJSON, told apart by content. All or nothing: a number
 * that would have to be guessed, a part that would be lost refuses the whole file, with its place. Where the user must decide,
 * the problem carries a question; read again with the answer, by the problem's code.
 */
export function readTrackFile(
  bytes: Uint8Array,
  fileName: string,
  answers: Answers = {},
): Result<TrackFile, Problem> {
  const letters = trackLettersOf(fileName);
  const binary = binaryKind(bytes);
  if (binary !== null) return fail(otherKind(fileName, letters, binary, null));
  const decoded = decodeText(bytes, {
    subject: fileName,
    letters,
    latin1IfNotUtf8: answers[`${letters}-013`] === 'yes',
  });
  if (!decoded.ok) return decoded;
  const kind = kindToRead(textKind(decoded.value.text), letters);
  const misnamed = misnamedAs(kind, fileName);
  if (misnamed !== null) return fail(misnamed);

  const building = new TrackBuilding(new Refuser(fileName, lettersOfKind(kind)!), answers);
  return attempt(() => {
    const notes = readInto(building, decoded.value, kind);
    const file = building.finish();
    return { ...file, notes: [...decoded.value.notes, ...notes, ...file.notes] };
  });
}

function readInto(building: TrackBuilding, decoded: DecodedText, kind: FileKind): Note[] {
  const { refuser } = building;
  const notes: Note[] = [];
  const note = (number: string, text: string) =>
    notes.push({ code: `${refuser.letters}-${number}`, subject: refuser.subject, text });
  if (kind === 'json') {
    const reader = new GeoJsonReader(building);
    reader.read(readJson(decoded.text, refuser, 'Export it again.'));
    if (reader.ignoredShapes > 0) note('044', `${reader.ignoredShapes} areas left out`);
    if (reader.timesNotMatching > 0)
      note('032', `times of ${reader.timesNotMatching} lines do not match their points: unknown`);
  } else if (kind === 'kml') {
    const reader = new KmlReader(building);
    const cut = readXml(decoded, refuser, reader);
    if (cut !== null) refuseCutOff(cut, null, building);
    if (reader.ignoredShapes > 0) note('044', `${reader.ignoredShapes} shapes that are no lines left out`);
    if (reader.ignoredAltitudes > 0)
      note('028', `altitudes of ${reader.ignoredAltitudes} points are not absolute: unknown`);
  } else {
    const reader = new GpxReader(building);
    const cut = readXml(decoded, refuser, reader);
    if (cut !== null) {
      if (building.answers[`${refuser.letters}-${cutOffNumber(cut)}`] !== 'yes')
        refuseCutOff(cut, reader, building);
      reader.keepOpen();
      note('003', 'the file is cut off: the line is incomplete');
    }
    if (reader.unusualRoot !== null) note('011', reader.unusualRoot);
  }
  return notes;
}

const cutOffNumber = ({ insideTag }: CutOff): string => (insideTag ? '003' : '004');

/** Only GPX says point by point what is whole: there the user may want that. */
function refuseCutOff(cut: CutOff, reader: GpxReader | null, { refuser, tally }: TrackBuilding): never {
  const readable = reader?.readablePoints ?? tally.points;
  const where = cut.insideTag ? `in the middle of point ${readable + 1}` : `after point ${readable}`;
  const question: Question | undefined =
    reader === null || readable === 0
      ? undefined
      : {
          kind: 'yes-no',
          choices: [
            { value: 'yes', label: `Open the ${readable} whole points as an incomplete line` },
            { value: 'no', label: 'Do not open it' },
          ],
        };
  const title = `the file is cut off: it ends ${where}`;
  const remedy = 'Export or copy it again.';
  const problem = refuser.problem(cutOffNumber(cut), cut.place, title, remedy, question);
  throw new Refusal({ ...problem, kept: 'Nothing was opened.' });
}

const lettersOfKind = (kind: FileKind): string | null =>
  kind === 'gpx' ? 'GPX' : kind === 'kml' ? 'KML' : kind === 'json' ? 'GEO' : null;

/** A project that is opened as a track is taken for the JSON it is. */
function trackLettersOf(fileName: string): 'GPX' | 'KML' | 'GEO' {
  const letters = lettersOf(fileName);
  if (letters === 'PRJ') return 'GEO';
  return letters === 'CSV' ? 'GPX' : letters;
}

/** Where the first element is not seen at once, the reader that the name calls for looks at the root itself. */
function kindToRead(seen: FileKind, letters: string): FileKind {
  if (seen !== 'other XML' || letters === 'GEO') return seen;
  return letters === 'KML' ? 'kml' : 'gpx';
}

function misnamedAs(kind: FileKind, fileName: string): Problem | null {
  const own = lettersOfKind(kind);
  const named = trackLettersOf(fileName);
  const isNamed = /\.(gpx|kml|geojson|json)$/i.test(fileName);
  if (own !== null && (own === named || !isNamed)) return null;
  return otherKind(fileName, named, kind, own);
}

function otherKind(fileName: string, letters: string, kind: FileKind, readable: string | null): Problem {
  const number = kind === 'web page' ? '002' : kind === 'empty' ? '001' : '012';
  const found: Partial<Record<FileKind, string>> = {
    'web page': 'a web page (line 1)',
    empty: 'empty: it holds only spaces',
    gpx: 'GPX',
    kml: 'KML',
    json: 'JSON, as GeoJSON is',
    unknown: 'no kind of file that is known here',
  };
  const isWhat = found[kind] ?? `of the kind ${kind}`;
  const expected = letters === 'GPX' ? 'GPX' : letters === 'KML' ? 'KML' : 'GeoJSON';
  const suffix = readable === 'GPX' ? '.gpx' : readable === 'KML' ? '.kml' : '.geojson';
  return {
    code: `${letters}-${number}`,
    subject: fileName,
    place: kind === 'web page' ? 'line 1' : null,
    title: `the file is ${isWhat}, not ${expected}`,
    remedy:
      readable === null ? openAnother : `If that is right, rename it to end in ${suffix} and open it again.`,
  };
}
