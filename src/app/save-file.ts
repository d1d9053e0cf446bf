/** A file that was offered: where it can be had again, should the browser have held it back. */
export interface OfferedFile {
  readonly name: string;
  readonly url: string;
  readonly bytes: number;
}

let last: OfferedFile | null = null;

/** Offers text or bytes as a file to keep. It can be had again until the next one is offered. */
export function saveFile(name: string, content: BlobPart, type: string): OfferedFile {
  if (last) URL.revokeObjectURL(last.url);
  const blob = new Blob([content], { type });
  last = { name, url: URL.createObjectURL(blob), bytes: blob.size };
  const link = document.createElement('a');
  link.href = last.url;
  link.download = name;
  link.click();
  return last;
}
