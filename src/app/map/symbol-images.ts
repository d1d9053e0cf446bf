import { hazardKinds, markKinds, type MarkKind } from '../../core/domain/mark';
import { modes } from '../../core/domain/mode';
import { markSymbol } from '../look/mark-symbols';
import type { Theme } from '../look/themes';
import { stripImage, stripName } from './mode-strip';

export const symbolPixelRatio = 2;

/** Every picture the map's layers name, in the theme's colours. */
export function symbolImages(theme: Theme): ReadonlyMap<string, ImageData> {
  return new Map([
    ...modes.map((mode) => [stripName(mode), stripImage(mode, theme, symbolPixelRatio)] as const),
    ...markKinds.map((kind) => [`mark-${kind}`, markImage(kind, theme)] as const),
    ['arrow', arrowImage(theme)] as const,
    ['gathering', gatheringImage(theme)] as const,
    ['stance', stanceImage(theme)] as const,
  ]);
}

function draw(sidePx: number, paint: (pen: OffscreenCanvasRenderingContext2D) => void): ImageData {
  const canvas = new OffscreenCanvas(sidePx * symbolPixelRatio, sidePx * symbolPixelRatio);
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('No 2D canvas');
  pen.scale(symbolPixelRatio, symbolPixelRatio);
  pen.lineCap = 'round';
  pen.lineJoin = 'round';
  paint(pen);
  return pen.getImageData(0, 0, canvas.width, canvas.height);
}

/** A light disc with the sign in ink, rimmed in the alarm colour where it ends a slide badly. */
function markImage(kind: MarkKind, { paper, ink, alarm }: Theme): ImageData {
  const colour = hazardKinds.has(kind) ? alarm : ink;
  return draw(28, (pen) => {
    pen.translate(2, 2);
    pen.fillStyle = paper;
    pen.strokeStyle = colour;
    pen.lineWidth = 2;
    pen.beginPath();
    pen.arc(12, 12, 12, 0, 2 * Math.PI);
    pen.fill();
    pen.stroke();
    pen.translate(3, 3);
    pen.scale(0.75, 0.75);
    pen.fillStyle = colour;
    pen.lineWidth = 2.2;
    pen.fill(new Path2D(markSymbol[kind].fill));
    pen.stroke(new Path2D(markSymbol[kind].stroke));
  });
}

/** A barbed head upon the line, pointing the way the team goes. */
function arrowImage({ ink, paper }: Theme): ImageData {
  return draw(20, (pen) => {
    const head = new Path2D('M4 3.5 17 10 4 16.5 8 10Z');
    pen.strokeStyle = paper;
    pen.lineWidth = 4;
    pen.stroke(head);
    pen.fillStyle = ink;
    pen.fill(head);
  });
}

/** A belayer's anchor: one fixed point above, the rope to both sides. */
function stanceImage({ ink, paper }: Theme): ImageData {
  return draw(18, (pen) => {
    pen.fillStyle = paper;
    pen.strokeStyle = ink;
    pen.lineWidth = 2;
    pen.beginPath();
    pen.rect(2, 2, 14, 14);
    pen.fill();
    pen.stroke();
    pen.stroke(new Path2D('M9 5 5.5 12.5M9 5 12.5 12.5'));
    pen.fillStyle = ink;
    pen.beginPath();
    pen.arc(9, 5.6, 2, 0, 2 * Math.PI);
    pen.fill();
  });
}

/** Three together. */
function gatheringImage({ ink, paper }: Theme): ImageData {
  return draw(18, (pen) => {
    pen.fillStyle = paper;
    pen.strokeStyle = ink;
    pen.lineWidth = 2;
    pen.beginPath();
    pen.arc(9, 9, 7.5, 0, 2 * Math.PI);
    pen.fill();
    pen.stroke();
    pen.fillStyle = ink;
    for (const [x, y] of [
      [9, 6.2],
      [6.3, 10.6],
      [11.7, 10.6],
    ] as const) {
      pen.beginPath();
      pen.arc(x, y, 1.9, 0, 2 * Math.PI);
      pen.fill();
    }
  });
}
