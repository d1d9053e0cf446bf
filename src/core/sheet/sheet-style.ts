import { sheetFamily } from './sheet-font';

/** Paper sizes, portrait. A6 is the pocket format: print four on a side of A4 and fold twice, or on A6 itself. */
export const papers = ['a4', 'letter', 'a6'] as const;
export type Paper = (typeof papers)[number];

export const paperName: Readonly<Record<Paper, string>> = {
  a4: 'A4',
  letter: 'Letter',
  a6: 'A6, for the pocket',
};

/** CSS knows no A6 by name. */
const pageSize: Readonly<Record<Paper, string>> = {
  a4: 'A4 portrait',
  letter: 'letter portrait',
  a6: '105mm 148mm',
};
const pageMargin: Readonly<Record<Paper, string>> = {
  a4: '12mm 9.5mm 15mm',
  letter: '12mm 8mm 15mm',
  a6: '11mm 5mm 10mm',
};

const letters = `"${sheetFamily}", "Liberation Sans", Arial, Helvetica, "Noto Sans", sans-serif`;

/** A string for CSS `content`: everything but letters and digits as an escape, so that no title can end it. */
const cssString = (text: string): string =>
  `"${[...text]
    .map((character) =>
      /[a-zA-Z0-9]/.test(character) ? character : `\\${character.codePointAt(0)!.toString(16)} `,
    )
    .join('')}"`;

/** What stands on every page beside its number. */
export interface EveryPage {
  readonly title: string;
  /** When the sheet was made and of which state of the project. */
  readonly made: string;
  readonly caution: string;
  /** What the two letters of each mode mean. */
  readonly legend: string;
}

/** On paper for the table the first page has its own head: only the pages after it say again whose they are. */
const firstPage: Readonly<Record<Paper, string>> = {
  a4: '@page :first { margin-top: 7mm; @top-left { content: none; } @top-right { content: none; } }',
  letter: '@page :first { margin-top: 7mm; @top-left { content: none; } @top-right { content: none; } }',
  a6: '',
};

/** Page rules: size, margins; title, state, page n of m, caution and legend on every page. */
export const pageRules = (paper: Paper, { title, made, caution, legend }: EveryPage): string => `
@page {
  size: ${pageSize[paper]};
  margin: ${pageMargin[paper]};
  @top-left { content: ${cssString(title)}; font: 700 10pt ${letters}; vertical-align: bottom; padding-bottom: 1mm; }
  @top-right { content: ${cssString(made)}; font: 10pt ${letters}; vertical-align: bottom; padding-bottom: 1mm; }
  @bottom-left { content: ${cssString(caution)} "\\A" ${cssString(legend)}; white-space: pre-wrap; text-align: left; font: 10pt/1.15 ${letters}; vertical-align: top; padding-top: 1mm; }
  @bottom-right { content: "page " counter(page) "\\A of " counter(pages); white-space: pre; font: 700 10pt/1.15 ${letters}; text-align: right; vertical-align: top; padding-top: 1mm; }
}
${firstPage[paper]}`;

/** Black on white, ten points and more, nothing that needs a background. */
export const sheetRules = `
.sheet { color: #000; background: #fff; font: 10pt/1 ${letters}; font-variant-numeric: tabular-nums; max-width: 191mm; margin: 0 auto; }
.sheet h1, .sheet h2 { font-family: inherit; font-weight: 700; }
.sheet h1 { font-size: 14pt; line-height: 1; margin: 0; }
.sheet h2 { font-size: 10pt; margin: 0.4mm 0 0; border-bottom: 0.3mm solid #000; break-after: avoid; }
.sheet p, .sheet ul, .sheet ol, .sheet dl { margin: 0; }
.sheet ul { padding-left: 3mm; list-style: "\\25aa  "; }
.sheet header { display: flex; justify-content: space-between; align-items: baseline; gap: 6mm; border-bottom: 0.5mm solid #000; }
.sheet header h1 { flex: 1 0 auto; max-width: 60%; }
.sheet header p { text-align: right; }
.sheet .clock { display: flex; flex-wrap: wrap; margin: 0 0 0.5mm; border-bottom: 0.3mm solid #000; }
.sheet .clock > div { flex: auto; padding: 0.2mm 0.6mm; border-left: 0.2mm solid #000; white-space: nowrap; }
.sheet .clock > div:first-child { border-left: 0; padding-left: 0; }
.sheet .clock dt, .sheet .clock dd { display: inline; margin: 0; }
.sheet .clock dt { margin-right: 0.6mm; }
.sheet .clock .time { font-size: 12pt; font-weight: 700; line-height: 1; }
.sheet .clock .blank { min-width: 16mm; }
.sheet .facts dt, .sheet .facts dd { display: inline; margin: 0 1mm 0 0; }
.sheet .runin h2 { display: inline; border: 0; margin: 0 1mm 0 0; }
.sheet .runin p, .sheet .runin dl { display: inline; }
.sheet .runin { margin-top: 0.4mm; border-top: 0.2mm solid #000; }
.sheet .facts dt { font-weight: 700; }
.sheet .warnings { list-style: none; padding: 0; }
.sheet .warnings .grave { border-left: 1.4mm solid #000; padding-left: 1.2mm; font-weight: 700; }
.sheet .warnings .heed { border-left: 0.5mm double #000; padding-left: 2.1mm; }
.sheet .picture { display: block; max-width: 100%; height: auto; break-inside: avoid; }
.sheet .map-side { width: min-content; }
.sheet .map-side .picture { max-width: none; }
.sheet .front > div > .picture { width: 100%; }
.sheet img.picture { border: 0.3mm solid #000; max-height: 120mm; object-fit: contain; }
.sheet figure { margin: 0; break-inside: avoid; }
.sheet .key span { white-space: nowrap; margin-right: 1mm; }
.sheet .stroke { width: 26px; height: 12px; vertical-align: -1px; margin-right: 1mm; }
.sheet .front { display: grid; grid-template-columns: min-content 1fr; gap: 0 3.5mm; break-inside: avoid; }
.sheet .columns { columns: 2; column-gap: 4mm; column-rule: 0.2mm solid #000; }
.sheet .columns li, .sheet .whole { break-inside: avoid; }
.sheet .overleaf { break-before: page; }
.sheet .room th, .sheet .room td { height: 6mm; vertical-align: bottom; white-space: nowrap; }
.sheet .room thead th { height: auto; }
.sheet .room thead th:last-child { width: 60%; }
.sheet .room .ruled, .sheet .room thead th:nth-child(n + 4) { border-left: 0.2mm solid #000; }
.sheet table { width: 100%; border-collapse: collapse; }
.sheet thead { display: table-header-group; }
.sheet tr { break-inside: avoid; }
.sheet th, .sheet td { border-bottom: 0.2mm solid #000; padding: 0 0.35mm; text-align: left; vertical-align: top; font-weight: 400; }
.sheet thead th { font-weight: 700; border-bottom-width: 0.4mm; vertical-align: bottom; }
.sheet .right { text-align: right; white-space: nowrap; }
.sheet .tight { white-space: nowrap; }
.sheet .line { display: block; }
.sheet .own { font-style: italic; font-weight: 700; }
.sheet .strong { font-weight: 700; }
.sheet .swatch { width: 4.6mm; height: 2.6mm; vertical-align: -0.2mm; margin-right: 0.6mm; }
.sheet .store { position: absolute; }
.sheet .segments { margin-top: 0.6mm; }
.sheet .segments tbody { break-inside: avoid; border-bottom: 0.2mm solid #000; }
.sheet .segments tbody th, .sheet .segments tbody td { border-bottom: 0; white-space: nowrap; }
.sheet .segments .way { break-after: avoid; border-bottom-width: 0.4mm; }
.sheet .segments .way th, .sheet .segments .how, .sheet .segments .said { white-space: normal; }
.sheet .segments .how { width: 100%; }
.sheet .segments .apart { padding-left: 1.1mm; }
.sheet .segments .way th { padding-left: 0; }
.sheet .segments .other { text-align: center; }
.sheet .matrix td, .sheet .matrix thead th { text-align: center; }
.sheet .planned { border-left: 0.5mm solid #000; border-right: 0.5mm solid #000; font-weight: 700; }
.sheet .rescue { border: 0.6mm solid #000; padding: 0 1.5mm 0.5mm; break-inside: avoid; margin-top: 1.2mm; }
.sheet .rescue h2 { margin-top: 0.4mm; }
.sheet .numbers { display: grid; grid-template-columns: 1fr 1fr; gap: 0 3mm; }
.sheet .numbers p { display: flex; gap: 1.5mm; padding-top: 0.9mm; }
.sheet .numbers .blank { flex: 1; min-width: 10mm; }
.sheet .blank { display: inline-block; min-width: 34mm; border-bottom: 0.3mm solid #000; }
.sheet .check { display: block; width: 100mm; height: 3mm; border: solid #000; border-width: 0 0.3mm 0.3mm; }
.pocket { max-width: 95mm; }
.pocket .clock { flex-wrap: wrap; }
.pocket .clock > div { flex: 1 0 40%; }
.pocket .step { break-inside: avoid; border-top: 0.2mm solid #000; padding: 0.6mm 0; }
.pocket .matrix th, .pocket .matrix td { padding: 0.2mm 0.4mm; }
@media screen { .sheet { padding: 6mm; } }
@media print { .sheet { max-width: none; } }
`;
