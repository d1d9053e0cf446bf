import { inflateRawSync } from 'node:zlib';
import type { TrackFile } from '../../src/core/domain/track';
import { readArguments, UsageError, type Arguments } from '../../src/cli/arguments';
import { lineOptions } from '../../src/cli/inputs';
import { rasterOptions } from '../../src/cli/rasters';
import { readPointsCsv } from '../../src/core/files/points-csv';
import { readProject, writeProject } from '../../src/core/files/project';
import { decodeText } from '../../src/core/files/text';
import { readTrackFile } from '../../src/core/files/track-file';
import { textOfLink } from '../../src/app/share-link';
import { secondArguments, secondPoints } from './second-lists';
import { secondGeoJson, secondGpx, secondKml, type SecondOpinion, type Seen } from './second-tracks';
import type { TextKind } from './text-seeds';

/** How one changed file went. `untyped` and `differs` must never be. */
export type Verdict =
  | { readonly kind: 'refused'; readonly code: string }
  | { readonly kind: 'accepted' }
  | { readonly kind: 'untyped'; readonly why: string }
  | { readonly kind: 'differs'; readonly why: string };

export async function judge(kind: TextKind, bytes: Uint8Array): Promise<Verdict> {
  try {
    if (kind === 'link') return await judgeLink(bytes);
    if (kind === 'project') return judgeProject(bytes);
    if (kind === 'points') return judgePoints(bytes);
    return kind === 'arguments' ? judgeArguments(bytes) : judgeTrack(kind, bytes);
  } catch (defect) {
    return {
      kind: 'untyped',
      why: defect instanceof Error ? (defect.stack ?? defect.message) : String(defect),
    };
  }
}

const readers = { gpx: secondGpx, kml: secondKml, geojson: secondGeoJson } as const;

function judgeTrack(kind: keyof typeof readers, bytes: Uint8Array): Verdict {
  const result = readTrackFile(bytes, `fuzzed.${kind}`);
  if (!result.ok) {
    const { code, title, remedy } = result.problem;
    const isSaid = /^(GPX|KML|GEO)-\d{3}$/.test(code) && title.length > 0 && remedy.length > 0;
    return isSaid ? { kind: 'refused', code } : { kind: 'untyped', why: `${code}: ${title}` };
  }
  const decoded = decodeText(bytes, { subject: '', letters: 'GPX', latin1IfNotUtf8: false });
  if (!decoded.ok) return { kind: 'differs', why: 'opened, but its text cannot be decoded' };
  let second: SecondOpinion;
  try {
    second = readers[kind](decoded.value.text);
  } catch (error) {
    return { kind: 'differs', why: `the second reader failed: ${String(error)}` };
  }
  const why = difference(result.value, second);
  return why === null ? { kind: 'accepted' } : { kind: 'differs', why };
}

function difference(file: TrackFile, second: SecondOpinion): string | null {
  const lines = file.tracks.map(({ parts }) =>
    parts.flat().map(({ position, elevationM }): Seen => [position[0], position[1], elevationM]),
  );
  const waypoints = file.waypoints.map(({ position, elevationM }): Seen => [
    position[0],
    position[1],
    elevationM,
  ]);
  const pairs = [
    ['names', file.tracks.map(({ name }) => name), second.names],
    ['lines', lines, second.lines],
    ['waypoints', waypoints, second.waypoints],
  ] as const;
  for (const [what, first, other] of pairs) {
    const [a, b] = [JSON.stringify(first), JSON.stringify(other)];
    if (a !== b) return `${what}: ${a.slice(0, 300)} against ${b.slice(0, 300)}`;
  }
  return null;
}

function judgeProject(bytes: Uint8Array): Verdict {
  const decoded = decodeText(bytes, { subject: 'fuzzed', letters: 'PRJ', latin1IfNotUtf8: false });
  if (!decoded.ok) return { kind: 'refused', code: decoded.problem.code };
  const result = readProject(decoded.value.text, 'fuzzed');
  if (({} as Record<string, unknown>)['polluted'] !== undefined)
    return { kind: 'untyped', why: 'a prototype was changed' };
  if (!result.ok)
    return /^PRJ-\d{3}$/.test(result.problem.code)
      ? { kind: 'refused', code: result.problem.code }
      : { kind: 'untyped', why: result.problem.code };

  const text = writeProject(result.value.project);
  const lost = lostIn(JSON.parse(decoded.value.text), JSON.parse(text), '');
  if (lost !== null) return { kind: 'differs', why: lost };
  const again = readProject(text, 'again');
  if (!again.ok) return { kind: 'differs', why: `written, it is refused: ${again.problem.title}` };
  return writeProject(again.value.project) === text
    ? { kind: 'accepted' }
    : { kind: 'differs', why: 'written twice, it is not the same' };
}

function judgePoints(bytes: Uint8Array): Verdict {
  const result = readPointsCsv(bytes, 'fuzzed.csv');
  if (!result.ok) {
    const { code } = result.problem;
    return /^CSV-\d{3}$/.test(code) ? { kind: 'refused', code } : { kind: 'untyped', why: code };
  }
  const decoded = decodeText(bytes, { subject: '', letters: 'CSV', latin1IfNotUtf8: true });
  const second = secondPoints(decoded.ok ? decoded.value.text : '');
  const [a, b] = [JSON.stringify(result.value), JSON.stringify(second)];
  return a === b
    ? { kind: 'accepted' }
    : { kind: 'differs', why: `${a.slice(0, 300)} against ${b.slice(0, 300)}` };
}

/** Deflated text has no checksum: what comes out may be nonsense, but it must be the nonsense that another inflater finds. */
async function judgeLink(bytes: Uint8Array): Promise<Verdict> {
  const hash = new TextDecoder().decode(bytes);
  const result = await textOfLink(hash);
  if (!result.ok) {
    const { code } = result.problem;
    return code === 'LNK-001' ? { kind: 'refused', code } : { kind: 'untyped', why: code };
  }
  const packed = Buffer.from(hash.slice(hash.indexOf('.') + 1), 'base64');
  const other = new TextDecoder().decode(inflateRawSync(packed, { maxOutputLength: 2 ** 24 }));
  if (other !== result.value)
    return { kind: 'differs', why: `${result.value.slice(0, 200)} against ${other.slice(0, 200)}` };
  const project = readProject(result.value, 'the link');
  return project.ok || /^PRJ-\d{3}$/.test(project.problem.code)
    ? { kind: 'accepted' }
    : { kind: 'untyped', why: project.problem.code };
}

/** Words of a call, a line each. */
function judgeArguments(bytes: Uint8Array): Verdict {
  const words = new TextDecoder().decode(bytes).split('\n');
  const types = { ...lineOptions, ...rasterOptions, step: { type: 'string' } } as const;
  let args: Arguments;
  let stepM: number | null;
  try {
    args = readArguments(words, types, ['elevation']);
    stepM = args.number('step', { min: 0.1, max: 1000 });
  } catch (error) {
    if (error instanceof UsageError && error.message.length > 0) return { kind: 'refused', code: 'usage' };
    throw error;
  }
  const second = secondArguments(words);
  const seen = { texts: args.texts('elevation'), line: args.text('line'), json: args.flag('json'), stepM };
  const [a, b] = [JSON.stringify(seen), JSON.stringify(second)];
  return a === b
    ? { kind: 'accepted' }
    : { kind: 'differs', why: `${a.slice(0, 300)} against ${b.slice(0, 300)}` };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What was in a file and is not, or not the same, in what is written back; short forms and given ids apart. */
function lostIn(was: unknown, is: unknown, at: string): string | null {
  if (Array.isArray(was) && isObject(is)) {
    if (Array.isArray(is['points'])) return lostIn(was, is['points'], at);
    const bare = [...(is['position'] as number[]), ...(was.length === 3 ? [is['elevationM']] : [])];
    return lostIn(was, bare, at);
  }
  if (typeof was === 'string' && isObject(is) && 'hardness' in is) return lostIn(was, is['hardness'], at);
  if (Array.isArray(was)) {
    if (!Array.isArray(is) || is.length !== was.length) return `${at} is another list`;
    for (const [i, item] of was.entries()) {
      const lost = lostIn(item, is[i], `${at}/${i}`);
      if (lost !== null) return lost;
    }
    return null;
  }
  if (isObject(was)) {
    if (!isObject(is)) return `${at} is no object`;
    for (const [key, value] of Object.entries(was)) {
      if (key === 'id' && value === '') continue;
      const lost = lostIn(value, is[key], `${at}/${key}`);
      if (lost !== null) return lost;
    }
    return null;
  }
  // JSON has no -0 when it is written.
  return was === is ? null : `${at} was ${JSON.stringify(was)} and is ${JSON.stringify(is)}`;
}
