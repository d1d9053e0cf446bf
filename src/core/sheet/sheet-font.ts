import regular from './font/roboto-condensed-400.woff2?inline';
import bold from './font/roboto-condensed-700.woff2?inline';

/**
 * The paper's own letters, so that it breaks into the same pages on every machine: Roboto Condensed, SIL Open Font License
 * (font/LICENSE). What they lack (other scripts, signs) comes from the machine's own.
 */
export const sheetFamily = 'Firnward Sheet';

/** Data URLs by weight. */
export const sheetFonts: readonly { readonly weight: string; readonly dataUrl: string }[] = [
  { weight: '400', dataUrl: regular },
  { weight: '700', dataUrl: bold },
];

/** For a page that stands alone. */
export const fontFaces: string = sheetFonts
  .map(
    ({ weight, dataUrl }) =>
      `@font-face { font-family: "${sheetFamily}"; font-weight: ${weight}; src: url(${dataUrl}) format("woff2"); }`,
  )
  .join('\n');
