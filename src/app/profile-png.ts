import type { Plan } from '../core/domain/segment';
import { writeMarkup } from '../core/sheet/markup';
import { profilePicture, profilePictureSize } from '../core/sheet/profile-picture';
import type { Units } from '../core/wording/units';

/** Twice the size of the drawing: sharp on paper and on small screens. */
const scale = 2;

/** The profile as a PNG. */
export async function profilePng(plan: Plan, title: string, units: Units): Promise<Blob> {
  const drawing = new Blob([writeMarkup(profilePicture(plan, title, units))], { type: 'image/svg+xml' });
  const url = URL.createObjectURL(drawing);
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = profilePictureSize.widthPx * scale;
    canvas.height = profilePictureSize.heightPx * scale;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done, failed) =>
      canvas.toBlob((blob) => (blob ? done(blob) : failed(new Error('The picture could not be drawn')))),
    );
  } finally {
    URL.revokeObjectURL(url);
  }
}
