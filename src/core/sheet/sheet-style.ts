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
  a4: '14mm 10mm 17mm',
  letter: '14mm 10mm 17mm',
  a6: '11mm 5mm 10mm',
};

/** A string for CSS `content`: everything but letters and digits as an escape, so that no title can end it. */
const cssString = (text: string): string =>
  `"${[...text]
    .map((character) =>
      /[a-zA-Z0-9]/.test(character) ? character : `\\${(character.codePointAt(0) ?? 32).toString(16)} `,
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

/** Page rules: size, margins; title, state, page n of m, caution and legend on every page. */
export const pageRules = (paper: Paper, { title, made, caution, legend }: EveryPage): string => `
@page {
  size: ${pageSize[paper]};
  margin: ${pageMargin[paper]};
  @top-left { content: ${cssString(title)}; font: 600 10pt sans-serif; vertical-align: bottom; padding-bottom: 1mm; }
  @top-right { content: ${cssString(made)} " page " counter(page) " of " counter(pages); font: 10pt sans-serif; vertical-align: bottom; padding-bottom: 1mm; }
  @bottom-left { content: ${cssString(caution)} "\\A" ${cssString(legend)}; white-space: pre-wrap; text-align: left; font: 10pt/1.15 sans-serif; vertical-align: top; padding-top: 1mm; }
}`;

/** Black on white, ten points and more, nothing that needs a background. */
export const sheetRules = `
.sheet { color: #000; background: #fff; font: 10pt/1.18 "Liberation Sans", Arial, Helvetica, "Noto Sans", sans-serif; font-variant-numeric: tabular-nums; max-width: 190mm; margin: 0 auto; }
.sheet h1, .sheet h2 { font-family: inherit; font-weight: 700; }
.sheet h1 { font-size: 16pt; margin: 0; }
.sheet h2 { font-size: 11.5pt; margin: 2.5mm 0 0.8mm; break-after: avoid; }
.sheet p, .sheet ul, .sheet ol, .sheet dl { margin: 0 0 1mm; }
.sheet ul { padding-left: 4.5mm; }
.sheet header { display: flex; justify-content: space-between; align-items: baseline; gap: 6mm; border-bottom: 0.6mm solid #000; }
.sheet header p { text-align: right; }
.sheet .headline { font-size: 14pt; font-weight: 700; }
.sheet .clock { display: flex; gap: 2mm; margin: 1mm 0 1.5mm; }
.sheet .clock > div { flex: 1; border: 0.3mm solid #000; padding: 0.5mm 1.5mm; }
.sheet .clock dd { margin: 0; }
.sheet .clock .time { font-size: 14pt; font-weight: 700; line-height: 1; }
.sheet .clock .blank { min-width: 16mm; }
.sheet .facts { display: grid; grid-template-columns: max-content 1fr; gap: 0 3mm; }
.sheet .facts dt { font-weight: 700; }
.sheet .facts dd { margin: 0; }
.sheet .warnings { list-style: none; padding: 0; }
.sheet .warnings .grave { border-left: 1.6mm solid #000; padding-left: 1.5mm; font-weight: 700; }
.sheet .warnings .heed { border-left: 0.6mm double #000; padding-left: 2.5mm; }
.sheet .warnings .note { padding-left: 3.1mm; }
.sheet .picture { display: block; width: 100%; height: auto; break-inside: avoid; margin: 1mm 0; }
.sheet img.picture { border: 0.3mm solid #000; max-height: 120mm; object-fit: contain; }
.sheet figure { margin: 0; break-inside: avoid; }
.sheet .key { white-space: pre-wrap; }
.sheet .stroke { width: 26px; height: 12px; vertical-align: -1px; margin-right: 1mm; }
.sheet .halves { display: grid; grid-template-columns: 1fr 1fr; gap: 0 5mm; }
.sheet .halves .facts { display: block; }
.sheet .halves dd { margin-bottom: 1mm; }
.sheet .beside { display: grid; grid-template-columns: auto 1fr; gap: 0 4mm; }
.sheet .beside .facts { display: block; }
.sheet .twofold { columns: 2; column-gap: 5mm; }
.sheet .twofold li { break-inside: avoid; }
.sheet .whole { break-inside: avoid; }
.sheet table { width: 100%; border-collapse: collapse; }
.sheet thead { display: table-header-group; }
.sheet tr { break-inside: avoid; }
.sheet th, .sheet td { border: 0.2mm solid #000; padding: 0.2mm 0.8mm; text-align: left; vertical-align: top; font-weight: 400; }
.sheet thead th { font-weight: 700; border-bottom-width: 0.6mm; }
.sheet .right { text-align: right; white-space: nowrap; }
.sheet .tight { white-space: nowrap; }
.sheet .line { display: block; }
.sheet .own { font-style: italic; font-weight: 700; }
.sheet .strong { font-weight: 700; }
.sheet .swatch { width: 6mm; height: 3.4mm; vertical-align: -0.4mm; margin-right: 0.8mm; }
.sheet .store { position: absolute; }
.sheet .rescue h2 { margin-top: 0; }
.sheet .segments { table-layout: fixed; }
.sheet col.number { width: 3.5%; }
.sheet col.place { width: 19.5%; }
.sheet col.ground { width: 15.5%; }
.sheet col.mode { width: 38%; }
.sheet col.time { width: 13.5%; }
.sheet col.found { width: 10%; }
.sheet .segments td { overflow-wrap: break-word; }
.sheet .matrix td, .sheet .matrix thead th { text-align: center; }
.sheet .matrix .planned { border-left: 0.7mm solid #000; border-right: 0.7mm solid #000; font-weight: 700; }
.sheet .rescue { border: 0.8mm solid #000; padding: 1.5mm 2mm; break-inside: avoid; align-self: start; margin-top: 2.5mm; }
.sheet .blank { display: inline-block; min-width: 34mm; border-bottom: 0.3mm solid #000; }
.sheet .check { display: block; width: 100mm; height: 3mm; border: solid #000; border-width: 0 0.3mm 0.3mm; }
.pocket { max-width: 95mm; }
.pocket .clock { flex-wrap: wrap; }
.pocket .clock > div { flex: 1 0 40%; }
.pocket .step { break-inside: avoid; border-top: 0.2mm solid #000; padding: 0.6mm 0; }
.pocket .facts { grid-template-columns: max-content 1fr; gap: 0 2mm; }
.pocket .matrix th, .pocket .matrix td { padding: 0.2mm 0.4mm; }
@media screen { .sheet { padding: 6mm; } }
@media print { .sheet { max-width: none; } }
`;
