/**
 * A second, independent reader of XML for comparison: plain regular expressions over the whole text, namespaces by hand. It
 * refuses nothing; what it makes of a broken file does not count.
 */
export interface Node {
  readonly local: string;
  readonly uri: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: Node[];
  text: string;
}

const token =
  /<!\[CDATA\[([^]*?)\]\]>|<!--[^]*?-->|<\?[^]*?\?>|<\/([^\s>]+)\s*>|<([^\s/>]+)((?:\s+[^\s=>/]+\s*=\s*(?:"[^"]*"|'[^']*'))*)\s*(\/?)>|([^<]+)/g;

export function secondXml(text: string): Node {
  const root: Node = { local: '', uri: '', attributes: new Map(), children: [], text: '' };
  const stack: { node: Node; spaces: Map<string, string> }[] = [{ node: root, spaces: new Map([['', '']]) }];
  for (const [, cdata, closing, opening, inside = '', selfClosing, chars] of text.matchAll(token)) {
    const top = stack.at(-1);
    if (top === undefined) break;
    if (cdata !== undefined) top.node.text += cdata;
    else if (chars !== undefined) top.node.text += decode(chars);
    else if (closing !== undefined) stack.pop();
    else if (opening !== undefined) {
      const { attributes, spaces } = attributesOf(inside, top.spaces);
      const [prefix, local] = opening.includes(':')
        ? (opening.split(':') as [string, string])
        : ['', opening];
      const node: Node = { local, uri: spaces.get(prefix) ?? '?', attributes, children: [], text: '' };
      top.node.children.push(node);
      if (selfClosing === '') stack.push({ node, spaces });
    }
  }
  return root;
}

function attributesOf(inside: string, outer: Map<string, string>) {
  const attributes = new Map<string, string>();
  const spaces = new Map(outer);
  for (const [, name = '', double, single] of inside.matchAll(/([^\s=]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
    const value = decode(double ?? single ?? '').replaceAll(/[\n\t\r]/g, ' ');
    if (name === 'xmlns') spaces.set('', value.trim());
    else if (name.startsWith('xmlns:')) spaces.set(name.slice(6), value.trim());
    else attributes.set(name, value);
  }
  return { attributes, spaces };
}

const named: Record<string, string> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

const decode = (text: string): string =>
  text
    .replaceAll('\r\n', '\n')
    .replaceAll(
      /&(?:#x([0-9a-fA-F]+)|#(\d+)|(\w+));/g,
      (whole, hex?: string, decimal?: string, name?: string) => {
        if (name !== undefined) return named[name] ?? whole;
        return String.fromCodePoint(hex === undefined ? Number(decimal) : parseInt(hex, 16));
      },
    );

/** Every element below, in the order of the text. */
export function* descend(node: Node): Generator<Node> {
  for (const child of node.children) {
    yield child;
    yield* descend(child);
  }
}
