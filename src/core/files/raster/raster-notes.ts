import type { Note } from '../../domain/problem';
import type { Unsaid } from './cell-meaning';

/** What should be known of a raster and stopped nothing. Codes are stable. The list grows while blocks are read. */
export class RasterNotes {
  readonly list: Note[] = [];

  constructor(readonly subject: string) {}

  /** Once per code. */
  add(code: string, text: string): void {
    if (this.list.every((note) => note.code !== code)) this.list.push({ code, subject: this.subject, text });
  }

  unsaid({ sentinels, implausible }: Unsaid): void {
    if (sentinels > 0)
      this.add(
        'TIF-102',
        'Cells of -9999, -32768 or the like, or beyond 1e30, are treated as missing, though the file does not declare them.',
      );
    if (implausible > 0)
      this.add('TIF-104', 'Cells below -500 m or above 9 000 m are treated as missing: no land lies there.');
  }
}
