const mostChars = 80;

/** Names that some systems keep for devices, with any ending. */
const reserved = /^(con|prn|aux|nul|com\d|lpt\d)(?=\.|$)/i;

/**
 * A name that any file system takes: letters, digits, dots, dashes and spaces, no path, at most 80 characters. The ending stays
 * as it is; the title it was made from stays in the file.
 */
export function safeFileName(title: string, ending: string): string {
  const clean = title
    .normalize('NFC')
    .replaceAll(/[^\p{L}\p{M}\p{N}. _-]+/gu, '_')
    .replaceAll(/\.{2,}/g, '.')
    .replace(/^[._ ]+/, '')
    .replace(reserved, '_$1');
  const room = mostChars - ending.length;
  const stem = [...clean]
    .slice(0, room)
    .join('')
    .replace(/[. ]+$/, '');
  return `${stem === '' ? 'plan' : stem}${ending}`;
}
