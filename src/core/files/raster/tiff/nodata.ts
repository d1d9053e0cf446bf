/** What the nodata tag says: nothing, a number (NaN included), or something that is no number. */
export type DeclaredNodata =
  | { readonly kind: 'none' }
  | { readonly kind: 'value'; readonly value: number }
  | { readonly kind: 'unreadable'; readonly text: string };

const numberText = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
const nanText = /^[+-]?(nan|1\.#(qnan|ind|snan).*)$/i;
const infinityText = /^([+-]?)(inf|infinity|1\.#inf.*)$/i;

/** GDAL_NODATA (tag 42113): one number as text. Decimal commas and words are not guessed at. */
export function parseNodata(tagText: string | null): DeclaredNodata {
  if (tagText === null) return { kind: 'none' };
  const text = tagText.replaceAll('\0', ' ').trim();
  if (text === '') return { kind: 'none' };
  if (nanText.test(text)) return { kind: 'value', value: NaN };
  const infinity = infinityText.exec(text);
  if (infinity) return { kind: 'value', value: infinity[1] === '-' ? -Infinity : Infinity };
  return numberText.test(text) ? { kind: 'value', value: Number(text) } : { kind: 'unreadable', text };
}
