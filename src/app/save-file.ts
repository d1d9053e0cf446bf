/** Offers text or bytes as a file to keep. */
export function saveFile(name: string, content: BlobPart, type: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser has taken the address by then.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
