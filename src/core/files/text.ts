import type { Note, Problem } from '../domain/problem';
import { fail, ok, type Result } from '../domain/result';
import { limits } from './limits';

export interface DecodedText {
  readonly text: string;
  /** As the platform's decoder names it: `utf-8`, `utf-16le`, `windows-1252` ... */
  readonly encoding: string;
  readonly byteOrderMarkBytes: number;
  readonly notes: readonly Note[];
}

export interface TextFrom {
  readonly subject: string;
  /** The format's letters, before the number of a problem. */
  readonly letters: string;
  /** The user has said that what is not UTF-8 is Western European text. */
  readonly latin1IfNotUtf8: boolean;
}

/**
 * Bytes as text, never with a replaced character: by byte order mark, else by the XML declaration, else as UTF-8.
 * Code 001 empty, 013 not in the encoding it claims (a question), 034 too large.
 */
export function decodeText(bytes: Uint8Array, from: TextFrom): Result<DecodedText, Problem> {
  const { subject, letters } = from;
  if (bytes.length === 0)
    return fail({
      code: `${letters}-001`,
      subject,
      place: null,
      title: 'the file is empty (0 bytes)',
      remedy: 'Export it again.',
    });
  const large = tooLarge(bytes.length, from);
  if (large !== null) return fail(large);
  const { encoding, markBytes } = encodingOf(bytes);
  const notes: Note[] = [];
  const note = (number: string, text: string) => notes.push({ code: `${letters}-${number}`, subject, text });
  const body = bytes.subarray(markBytes);
  const done = (text: string, name: string) =>
    ok({ text, encoding: name, byteOrderMarkBytes: markBytes, notes });

  const decoder = decoderFor(encoding);
  if (decoder === null) return fail(notDecoded(from, null, `the encoding "${encoding}" is not known here`));
  try {
    const text = decoder.decode(body);
    if (decoder.encoding !== 'utf-8') note('014', `read as ${decoder.encoding}`);
    return done(text, decoder.encoding);
  } catch {
    if (decoder.encoding !== 'utf-8' || !from.latin1IfNotUtf8) {
      const at = decoder.encoding === 'utf-8' ? markBytes + firstNotUtf8(body) : null;
      return fail(notDecoded(from, at, `the text is not valid ${decoder.encoding}`));
    }
  }
  note('013', 'not valid UTF-8: read as Western European text (Windows-1252), so check the names');
  return done(new TextDecoder('windows-1252').decode(body), 'windows-1252');
}

/** Asked before a file is read, so that a huge one is never held. Code 034. */
export function tooLarge(
  sizeBytes: number,
  { subject, letters }: Pick<TextFrom, 'subject' | 'letters'>,
): Problem | null {
  if (sizeBytes <= limits.textBytes) return null;
  const inMb = (n: number) => `${(n / 2 ** 20).toFixed(0)} MB`;
  return {
    code: `${letters}-034`,
    subject,
    place: null,
    title: `the file has ${inMb(sizeBytes)}, more than ${inMb(limits.textBytes)}`,
    remedy: 'Simplify or cut the track first.',
  };
}

function notDecoded({ subject, letters }: TextFrom, atByte: number | null, title: string): Problem {
  const problem = {
    code: `${letters}-013`,
    subject,
    place: atByte === null ? null : `byte ${atByte}`,
    title,
    remedy: 'Save it again as UTF-8.',
  };
  if (atByte === null) return problem;
  return {
    ...problem,
    question: {
      kind: 'yes-no',
      choices: [
        { value: 'yes', label: 'Read the names as Western European text (coordinates are the same)' },
        { value: 'no', label: 'Do not open it' },
      ],
    },
  };
}

function encodingOf(bytes: Uint8Array): { encoding: string; markBytes: number } {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return { encoding: 'utf-8', markBytes: 3 };
  if (a === 0xff && b === 0xfe) return { encoding: 'utf-16le', markBytes: 2 };
  if (a === 0xfe && b === 0xff) return { encoding: 'utf-16be', markBytes: 2 };
  if (a === 0x3c && b === 0) return { encoding: 'utf-16le', markBytes: 0 };
  if (a === 0 && b === 0x3c) return { encoding: 'utf-16be', markBytes: 0 };
  const start = new TextDecoder('windows-1252').decode(bytes.subarray(0, 256));
  const declared = /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([A-Za-z][\w.-]*)["']/.exec(start)?.[1];
  // A declaration that could be read byte by byte is not in UTF-16, whatever it says.
  if (declared === undefined || /^utf-?16/i.test(declared)) return { encoding: 'utf-8', markBytes: 0 };
  return { encoding: declared, markBytes: 0 };
}

function decoderFor(label: string): TextDecoder | null {
  try {
    return new TextDecoder(label, { fatal: true });
  } catch {
    return null;
  }
}

/** Offset of the first byte that no UTF-8 text can have there (Unicode Standard, table 3-7). */
export function firstNotUtf8(bytes: Uint8Array): number {
  let at = 0;
  while (at < bytes.length) {
    const lead = bytes[at]!;
    const more =
      lead < 0x80 ? 0 : lead < 0xc2 ? -1 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : lead < 0xf5 ? 3 : -1;
    if (more < 0) return at;
    const second = bytes[at + 1] ?? 0;
    const lowest = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
    const highest = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
    if (more > 0 && (second < lowest || second > highest)) return at;
    for (let i = 2; i <= more; i++) if (((bytes[at + i] ?? 0) & 0xc0) !== 0x80) return at;
    at += 1 + more;
  }
  return bytes.length;
}
