import type { XmlTag } from './xml';
import { xmlText } from './xml-write';

/** Longest extension of one point that is kept, characters (judgement: heart rate, temperature and the like fit). */
const keptChars = 1024;

/** In place of an extension that is not kept. */
export const lost = 'lost';

/**
 * What other makers wrote into one point, as XML that stands on its own: every element says its namespace, so that it can be
 * written back anywhere.
 */
export class KeptExtension {
  private xml = '';
  private readonly namespaces: string[] = [];
  private isLost = false;

  open(tag: XmlTag): void {
    const outer = this.namespaces.at(-1);
    // GPX 1.1 allows elements of other namespaces only, directly inside `extensions`.
    if (outer === undefined && (tag.uri === '' || tag.uri.includes('topografix.com/GPX/1/')))
      this.isLost = true;
    this.namespaces.push(tag.uri);
    const own = tag.uri === outer ? '' : ` xmlns="${xmlText(tag.uri)}"`;
    const attributes = Object.values(tag.attributes).filter(
      ({ prefix, local }) => prefix !== 'xmlns' && local !== 'xmlns',
    );
    this.add(`<${tag.local}${own}${attributes.map(attributeXml).join('')}>`);
  }

  text(chars: string): void {
    if (this.namespaces.length > 0) this.add(xmlText(chars));
  }

  close(tag: XmlTag): void {
    this.namespaces.pop();
    this.add(`</${tag.local}>`);
  }

  /** null: there was none. `lost`: too long, or nothing that GPX 1.1 could hold. */
  get result(): string | null {
    if (this.xml === '') return null;
    return this.isLost || this.xml.length > keptChars ? lost : this.xml;
  }

  private add(xml: string): void {
    // Beyond the bound only the fact matters, not the rest.
    if (this.xml.length <= keptChars) this.xml += xml;
  }
}

const attributeXml = ({ local, uri, value }: XmlTag['attributes'][string], i: number): string =>
  uri === ''
    ? ` ${local}="${attributeText(value)}"`
    : ` xmlns:a${i}="${xmlText(uri)}" a${i}:${local}="${attributeText(value)}"`;

const attributeText = (value: string): string =>
  xmlText(value).replaceAll('\n', '&#10;').replaceAll('\t', '&#9;');
