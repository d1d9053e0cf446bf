/** A page as data: plain text, or an element with attributes and children. Drawn by Svelte on screen, written out in Node. */
export type Markup = string | MarkupElement;

export interface MarkupElement {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Markup[];
}

type Value = string | number | null;

/** An element; attributes that are null are left out. */
export function el(
  tag: string,
  attributes: Readonly<Record<string, Value>> = {},
  ...children: readonly (Markup | readonly Markup[])[]
): MarkupElement {
  const kept = Object.entries(attributes).flatMap(([name, value]): [string, string][] =>
    value === null ? [] : [[name, String(value)]],
  );
  return { tag, attributes: Object.fromEntries(kept), children: children.flat() };
}

const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that stays text, whatever is in it. Control characters that XML and HTML forbid are dropped. */
export const escapeText = (text: string): string =>
  text
    // eslint-disable-next-line no-control-regex -- these are the characters to drop
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, '')
    .replaceAll(/[&<>"']/g, (character) => escapes[character]!);

const empty = new Set(['br', 'hr', 'img', 'meta', 'link', 'col']);
/** Only what is written out here may become a name of an element or attribute. */
const namePattern = /^[a-zA-Z][a-zA-Z0-9:-]*$/;

/** HTML text. Throws on a name that is no plain element or attribute name, on scripts, event and style attributes. */
export function writeMarkup(markup: Markup): string {
  if (typeof markup === 'string') return escapeText(markup);
  const { tag, attributes, children } = markup;
  if (!namePattern.test(tag) || tag.toLowerCase() === 'script') throw new Error(`not written: <${tag}>`);
  const written = Object.entries(attributes).map(([name, value]) => {
    if (!namePattern.test(name) || /^(on|style$)/i.test(name)) throw new Error(`not written: ${name}`);
    return ` ${name}="${escapeText(value)}"`;
  });
  const open = `<${tag}${written.join('')}>`;
  return empty.has(tag) ? open : `${open}${children.map(writeMarkup).join('')}</${tag}>`;
}
