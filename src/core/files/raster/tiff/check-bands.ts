import type { RasterNotes } from '../raster-notes';
import { refuse } from '../refusal';
import { unitQuestion } from '../unit-question';
import type { Picture } from './picture';

/**
 * One band of elevations is expected. Several bands of bytes are a picture; of other numbers, the first is taken and said.
 * @param isVouched the user has said what the numbers are, so bytes may be elevations.
 */
export function checkBands(name: string, picture: Picture, isVouched: boolean, notes: RasterNotes): void {
  const { bands, sample, photometric } = picture;
  const isByte = sample.bits === 8;
  const isColour = photometric === 2 || photometric === 3 || photometric === 5 || photometric === 6;
  if (bands >= 3 && isByte)
    refuse('TIF-006', name, 'bands', `are ${bands} of 8 bits: a picture, not elevations`);
  if (isColour) refuse('TIF-006', name, 'colours', 'are those of a picture, not elevations');
  if (isByte && !isVouched)
    refuse(
      'TIF-007',
      name,
      'cells',
      'have 8 bits, values 0 to 255 only: a shaded picture more likely than elevations',
      {
        question: unitQuestion,
        remedy: 'If they are elevations, say in what they are measured.',
      },
    );
  if (bands > 1) notes.add('TIF-101', `The file has ${bands} bands: the first is taken for elevations.`);
}
