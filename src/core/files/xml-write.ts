// Not allowed anywhere in XML 1.0 (W3C, section 2.2): control characters, halves of pairs, two non-characters.
const notXml =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text as XML, in an element or an attribute; what XML cannot hold becomes a replacement character. */
export function xmlText(text: string): string {
  return text
    .replaceAll(notXml, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll('\r', '&#13;');
}

/** `<name attributes>content</name>`; nothing at all for the unknown and the empty. */
export function element(name: string, content: string | null): string {
  return content === null || content === '' ? '' : `<${name}>${xmlText(content)}</${name}>`;
}
