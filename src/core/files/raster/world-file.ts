import type { Affine } from '../../domain/raster';
import { refuse } from './refusal';

const numberText = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** Whether a file may be one, by its ending: `.tfw`, `.tifw`, `.wld`. */
export const isWorldFileName = (name: string) => /\.(tfw|tifw|tiffw|wld)$/i.test(name);

/**
 * A world file (ESRI): six numbers a line each: x per column, y per column, x per row, y per row, and the centre of the first
 * cell. It places a raster and does not say in which coordinate system.
 */
export function readWorldFile(subject: string, text: string): Affine {
  const lines = text.trim().split(/\s*[\r\n]+\s*/);
  const numbers = lines.map((line) => (numberText.test(line) ? Number(line) : NaN));
  const wrong = numbers.findIndex((value) => !Number.isFinite(value));
  if (numbers.length !== 6 || wrong >= 0)
    refuse(
      'TIF-010',
      subject,
      'world file',
      numbers.length === 6
        ? `has "${lines[wrong]!.slice(0, 40)}" in line ${wrong + 1}, which is no number`
        : `has ${numbers.length} lines; six numbers are expected`,
    );
  const [colX = NaN, colY = NaN, rowX = NaN, rowY = NaN, x = NaN, y = NaN] = numbers;
  return { colX, colY, rowX, rowY, x0: x - (colX + rowX) / 2, y0: y - (colY + rowY) / 2 };
}
