/** What GDAL_METADATA (tag 42112) says of the first band. null: not said. */
export interface BandMetadata {
  readonly scale: number | null;
  readonly offset: number | null;
  /** Unit of the elevations, as written. */
  readonly unit: string | null;
  /** Date the file says it shows, as written. */
  readonly surveyed: string | null;
}

/**
 * Picks the first band's `<Item role="scale|offset|unittype" sample="0">` from the tag's small XML.
 * The text is only searched, never expanded: entities, external or nested, do nothing.
 */
export function parseGdalMetadata(xml: string | null): BandMetadata {
  const items = xml === null ? [] : [...xml.matchAll(/<Item\s([^>]{0,500})>([^<]{0,200})<\/Item>/g)];
  const ofRole = (role: string) => {
    for (const [, attributes = '', text = ''] of items) {
      if (attribute(attributes, 'role') !== role) continue;
      if ((attribute(attributes, 'sample') ?? '0') === '0') return text.trim();
    }
    return null;
  };
  const named = (pattern: RegExp) => {
    const found = items.find(([, attributes = '']) => pattern.test(attribute(attributes, 'name') ?? ''));
    return found?.[2]?.trim() ?? null;
  };
  return {
    scale: numberOrNull(ofRole('scale')),
    offset: numberOrNull(ofRole('offset')),
    unit: ofRole('unittype'),
    surveyed: named(/^(survey|acquisition|flight|observation)[ _-]?(date|year)$/i),
  };
}

function attribute(attributes: string, name: string): string | null {
  return new RegExp(`(?:^|\\s)${name}="([^"]{0,200})"`).exec(attributes)?.[1] ?? null;
}

/** NaN where a value is given that is no number: the caller refuses it. */
function numberOrNull(text: string | null): number | null {
  return text === null || text === '' ? null : Number(text);
}
