import { SaxesParser } from 'saxes';
import type { DecodedText } from './text';
import { lineAndColumn } from './json';
import { limits } from './limits';
import { Refusal, type Refuser } from './refusal';

/** An element's start or end, as the parser gives it. */
export interface XmlTag {
  /** Name without prefix. */
  readonly local: string;
  /** Namespace. */
  readonly uri: string;
  readonly attributes: Readonly<
    Record<
      string,
      { readonly prefix: string; readonly local: string; readonly uri: string; readonly value: string }
    >
  >;
}

/** Value of an attribute that has no namespace. */
export function attributeOf(tag: XmlTag, name: string): string | undefined {
  return Object.hasOwn(tag.attributes, name) ? tag.attributes[name]?.value : undefined;
}

export interface XmlHandlers {
  open(tag: XmlTag, place: () => string): void;
  close(tag: XmlTag, place: () => string): void;
  text(text: string, place: () => string): void;
}

/** The file ended before its last element was closed. */
export interface CutOff {
  readonly place: string;
  readonly insideTag: boolean;
}

const chunkChars = 64 * 1024;
const mend = 'Export it again, or mend the place named with a text editor.';
// Not allowed anywhere in XML 1.0 (W3C, section 2.2), found beforehand to be named by their byte.
// eslint-disable-next-line no-control-regex
const notXml = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/;

/**
 * Streams a text through a strict, namespace-aware parser. Refused, by throwing a Refusal: document type declarations,
 * control characters, whatever is not well-formed, and what goes beyond the limits. Gives where it was cut off, if it was.
 */
export function readXml(decoded: DecodedText, refuser: Refuser, handlers: XmlHandlers): CutOff | null {
  refuseControlCharacters(decoded, refuser);
  const { text } = decoded;
  const parser = new SaxesParser({ xmlns: true });
  const place = () => `line ${parser.line}, column ${parser.columnIndex}`;
  const beyond = (title: string) =>
    refuser.refuse('035', place(), title, `This is not a usual export. ${mend}`);
  let depth = 0;
  let attributes = 0;
  let atEnd = false;
  let cutOff: CutOff | null = null;

  parser.on('error', (error) => {
    if (!atEnd) throw notWellFormed(error.message, place(), refuser);
    const insideTag = text.lastIndexOf('<') > text.lastIndexOf('>');
    cutOff = { place: lineAndColumn(text, text.length), insideTag };
  });
  parser.on('doctype', () => {
    refuser.refuse('005', place(), 'document type declarations are not allowed', mend);
  });
  parser.on('opentagstart', () => {
    depth += 1;
    attributes = 0;
    if (depth > limits.depth) beyond(`elements stand more than ${limits.depth} deep`);
  });
  parser.on('attribute', ({ value }) => {
    attributes += 1;
    if (attributes > limits.attributes) beyond(`an element has more than ${limits.attributes} attributes`);
    if (value.length > limits.textChars) beyond(`an attribute has more than ${limits.textChars} characters`);
  });
  parser.on('opentag', (tag) => handlers.open(tag, place));
  parser.on('closetag', (tag) => {
    depth -= 1;
    handlers.close(tag, place);
  });
  const takeText = (chars: string) => {
    if (chars.length > limits.textChars) beyond(`a text has more than ${limits.textChars} characters`);
    handlers.text(chars, place);
  };
  parser.on('text', takeText);
  parser.on('cdata', takeText);

  for (let at = 0; at < text.length; at += chunkChars) parser.write(text.slice(at, at + chunkChars));
  atEnd = true;
  parser.close();
  return cutOff;
}

function refuseControlCharacters(
  { text, encoding, byteOrderMarkBytes }: DecodedText,
  refuser: Refuser,
): void {
  const at = text.search(notXml);
  if (at < 0) return;
  const before = text.slice(0, at);
  const bytes =
    encoding === 'utf-8'
      ? new TextEncoder().encode(before).length
      : before.length * (encoding.startsWith('utf-16') ? 2 : 1);
  refuser.refuse(
    '008',
    `byte ${byteOrderMarkBytes + bytes}, ${lineAndColumn(text, at)}`,
    `a control character (code ${text.charCodeAt(at)}) is not allowed in XML`,
    mend,
  );
}

/** The parser's own words, sorted by what they mean for the reader of the message. */
function notWellFormed(message: string, place: string, refuser: Refuser): Refusal {
  const words = message.replace(/^[^:]*:\d+:\d+: |^\d+:\d+: /, '').replace(/\.$/, '');
  const number = /entity/.test(words)
    ? '007'
    : /^disallowed character$/.test(words)
      ? '008'
      : /outside of root|only one root|after the root/.test(words)
        ? '009'
        : '039';
  return new Refusal(refuser.problem(number, place, `this is not well-formed XML: ${words}`, mend));
}
