/** What GDAL_METADATA (tag 42112) says of the first band. null: not said; NaN: said and no number. */
export interface BandMetadata {
  readonly scale: number | null;
  readonly offset: number | null;
  /** Unit of the elevations, as written. */
  readonly unit: string | null;
  /** Date the file says it shows, as written. */
  readonly surveyed: string | null;
}

interface Item {
  readonly name: string;
  readonly role: string;
  /** Band counted from 0; NaN when it is no number. */
  readonly sample: number;
  readonly text: string;
}

const quantities: readonly string[] = ['scale', 'offset', 'unittype'];

const attribute = String.raw`\s+[\w:.-]+="[^"<]*"`;
const item = String.raw`<Item(${attribute})*\s*(/>|>[^<]*</Item>)`;
const whole = new RegExp(String.raw`^\s*<GDALMetadata\s*>\s*(${item}\s*)*</GDALMetadata>\s*$`);

/**
 * Picks the first band's `<Item role="scale|offset|unittype" sample="0">` from the tag's small XML. The text is only
 * searched, never expanded: entities do nothing. null: it speaks of scale, offset or unit and is not well made.
 */
export function parseGdalMetadata(xml: string | null): BandMetadata | null {
  if (xml !== null && (xml.includes('\0') || !whole.test(xml)) && /scale|offset|unittype/i.test(xml))
    return null;
  const items = xml === null ? [] : itemsOf(xml);
  const roles = items.filter(({ role }) => quantities.includes(role));
  const isOdd = ({ name, role }: Item) =>
    quantities.includes(name.toLowerCase()) && !quantities.includes(role);
  if (roles.some(({ sample }) => !Number.isInteger(sample)) || items.some(isOdd)) return null;
  const ofRole = (wanted: string) =>
    roles.find(({ role, sample }) => role === wanted && sample === 0)?.text ?? null;
  const dated = /^(survey|acquisition|flight|observation)[ _-]?(date|year)$/i;
  return {
    scale: numberOrNull(ofRole('scale')),
    offset: numberOrNull(ofRole('offset')),
    unit: ofRole('unittype'),
    surveyed: items.find(({ name }) => dated.test(name))?.text ?? null,
  };
}

function itemsOf(xml: string): Item[] {
  return [...xml.matchAll(/<Item\s([^<>]*)>([^<]*)<\/Item>/g)].map(([, attributes = '', text = '']) => {
    const value = (name: string) => new RegExp(`(?:^|\\s)${name}="([^"]*)"`).exec(attributes)?.[1];
    const sample = value('sample') ?? '0';
    return {
      name: value('name') ?? '',
      role: value('role') ?? '',
      sample: /^\d+$/.test(sample) ? Number(sample) : NaN,
      text: text.trim(),
    };
  });
}

function numberOrNull(text: string | null): number | null {
  if (text === null) return null;
  return text === '' ? NaN : Number(text);
}
