import type { Problem } from '../core/domain/problem';
import type { Project } from '../core/domain/project';
import { fail, ok, type Result } from '../core/domain/result';

/**
 * A project in the part of an address after `#`, which browsers never send to a server: the project file's text, deflated
 * (RFC 1951), as base64url (RFC 4648, section 5).
 */
const prefix = '#plan=1.';

/** Longer addresses are cut by mail programs and messengers (judgement). */
export const linkMaxChars = 8000;
/** What is taken from a strange link, and what it may grow to. */
const takenMaxChars = 200_000;
const textMaxBytes = 8 * 2 ** 20;

const placesPerDeg = 1e7;

/** Only what a plan is made of: other lines stay at home, places are cut to the centimetre. */
export function forLink(project: Project, withNames: boolean): Project {
  const { line, party } = project;
  // The other line does not come along, nor what is painted on it.
  const isOtherBack = typeof project.schedule.wayBack === 'object';
  const overrides = project.overrides.filter(({ way }) => !isOtherBack || way !== 'back');
  return {
    ...project,
    alternatives: [],
    line: {
      ...line,
      points: line.points.map(({ position, elevationM }) => ({
        position: [round(position[0]), round(position[1])],
        elevationM: elevationM === null ? null : Math.round(elevationM * 10) / 10,
        timeMs: null,
      })),
    },
    schedule: { ...project.schedule, wayBack: isOtherBack ? 'none' : project.schedule.wayBack },
    party: withNames
      ? party
      : { ...party, climbers: party.climbers.map((one, i) => ({ ...one, name: String(i + 1) })) },
    notes: withNames ? project.notes : '',
    marks: withNames ? project.marks : project.marks.map((mark) => ({ ...mark, note: '' })),
    overrides: withNames ? overrides : overrides.map((each) => ({ ...each, note: '' })),
  };
}

const round = (deg: number): number => Math.round(deg * placesPerDeg) / placesPerDeg;

/** @param text a project file's. @returns what follows the page's own address. */
export async function linkOf(text: string): Promise<string> {
  const packed = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(packed).arrayBuffer());
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return prefix + btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

export const isLink = (hash: string): boolean => hash.startsWith('#plan=');

/** The project file's text out of a link, not looked into yet. */
export async function textOfLink(hash: string): Promise<Result<string, Problem>> {
  if (!hash.startsWith(prefix)) return damaged('it is of a kind this version does not know');
  if (hash.length > takenMaxChars) return damaged('it is too long');
  try {
    const binary = atob(hash.slice(prefix.length).replaceAll('-', '+').replaceAll('_', '/'));
    const packed = Uint8Array.from(binary, (character) => character.charCodeAt(0));
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
    const bytes = await bounded(stream);
    if (!bytes) return damaged('it grows too large');
    return ok(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return damaged('it is damaged, or was cut off on its way');
  }
}

/** null: there is more than is taken. */
async function bounded(stream: ReadableStream<Uint8Array>): Promise<Uint8Array | null> {
  const parts: Uint8Array[] = [];
  let length = 0;
  const reader = stream.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > textMaxBytes) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

const damaged = (why: string): Result<never, Problem> =>
  fail({
    code: 'LNK-001',
    subject: 'The link',
    place: null,
    title: `This link holds no plan that can be opened: ${why}`,
    remedy: 'Ask for the link again, or for the project file.',
  });
