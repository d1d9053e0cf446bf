import { modeName, modes } from '../domain/mode';
import type { Plan } from '../domain/segment';
import type { Units } from '../wording/units';
import { el, type MarkupElement } from './markup';
import { modeCode } from './mode-pattern';
import { paperTextPx, ribbonHeightPx, sheetRibbon } from './sheet-ribbon';

const titlePx = 30;
const keyPx = 26;
const ribbon = { widthPx: 700, elevationPx: 100, slopePx: 50 } as const;
/** CSS pixels. */
export const profilePictureSize = {
  widthPx: ribbon.widthPx,
  heightPx: titlePx + ribbonHeightPx(ribbon) + keyPx,
} as const;

/** The ribbon as a drawing that stands alone: title above, what the letters mean below, on white. */
export function profilePicture(plan: Plan, title: string, units: Units): MarkupElement {
  const { widthPx, heightPx } = profilePictureSize;
  const present = modes.filter((mode) => plan.segments.some((segment) => segment.mode === mode));
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: widthPx,
      height: heightPx,
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      'font-family': 'sans-serif',
      'font-size': paperTextPx,
    },
    el('rect', { width: widthPx, height: heightPx, fill: '#fff' }),
    el('text', { x: 8, y: 20, 'font-weight': 700 }, title),
    el(
      'svg',
      { y: titlePx, width: widthPx, height: ribbonHeightPx(ribbon) },
      sheetRibbon(plan, units, 'profile', ribbon),
    ),
    el(
      'text',
      { x: 8, y: heightPx - 9 },
      present.map((mode) => `${modeCode[mode]} ${modeName[mode]}`).join(' · '),
    ),
  );
}
