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
  a4: '13mm 10mm',
  letter: '13mm 10mm',
  a6: '10mm 5mm',
};

/** A string for CSS `content`: everything but letters and digits as an escape, so that no title can end it. */
const cssString = (text: string): string =>
  `"${[...text]
    .map((character) =>
      /[a-zA-Z0-9]/.test(character) ? character : `\\${(character.codePointAt(0) ?? 32).toString(16)} `,
    )
    .join('')}"`;

/** Page rules: size, margins, title and caution on every page, page n of m. */
export const pageRules = (paper: Paper, title: string, caution: string): string => `
@page {
  size: ${pageSize[paper]};
  margin: ${pageMargin[paper]};
  @top-left { content: ${cssString(title)}; font: 600 10pt sans-serif; }
  @top-right { content: "page " counter(page) " of " counter(pages); font: 10pt sans-serif; }
  @bottom-left { content: ${cssString(caution)}; font: 10pt sans-serif; }
}`;

/** Black on white, ten points and more, nothing that needs a background. */
export const sheetRules = `
.sheet { color: #000; background: #fff; font: 10pt/1.22 "Liberation Sans", Arial, Helvetica, "Noto Sans", sans-serif; font-variant-numeric: tabular-nums; max-width: 190mm; margin: 0 auto; }
.sheet h1, .sheet h2 { font-family: inherit; font-weight: 700; }
.sheet h1 { font-size: 16pt; margin: 0; }
.sheet h2 { font-size: 11.5pt; margin: 3.5mm 0 1mm; break-after: avoid; }
.sheet p, .sheet ul, .sheet ol, .sheet dl { margin: 0 0 1mm; }
.sheet ul { padding-left: 4.5mm; }
.sheet header { display: flex; justify-content: space-between; align-items: baseline; gap: 6mm; border-bottom: 0.6mm solid #000; }
.sheet header p { text-align: right; }
.sheet .headline { font-size: 14pt; font-weight: 700; }
.sheet .facts { display: grid; grid-template-columns: max-content 1fr; gap: 0 3mm; }
.sheet .facts dt { font-weight: 700; }
.sheet .facts dd { margin: 0; }
.sheet .warnings { list-style: none; padding: 0; }
.sheet .warnings .grave { border-left: 1.6mm solid #000; padding-left: 1.5mm; font-weight: 700; }
.sheet .warnings .heed { border-left: 0.6mm double #000; padding-left: 2.5mm; }
.sheet .warnings .note { padding-left: 3.1mm; }
.sheet .picture { display: block; width: 100%; height: auto; break-inside: avoid; margin: 1mm 0; }
.sheet img.picture { border: 0.3mm solid #000; max-height: 120mm; object-fit: contain; }
.sheet table { width: 100%; border-collapse: collapse; }
.sheet thead { display: table-header-group; }
.sheet tr { break-inside: avoid; }
.sheet th, .sheet td { border: 0.2mm solid #000; padding: 0.4mm 0.8mm; text-align: left; vertical-align: top; font-weight: 400; }
.sheet thead th { font-weight: 700; border-bottom-width: 0.6mm; }
.sheet .right { text-align: right; white-space: nowrap; }
.sheet .tight { white-space: nowrap; }
.sheet .line { display: block; }
.sheet .strong { font-weight: 700; }
.sheet .swatch { width: 6mm; height: 3.4mm; vertical-align: -0.4mm; margin-right: 0.8mm; }
.sheet .store { position: absolute; }
.sheet .rescue h2 { margin-top: 0; }
.sheet .segments { table-layout: fixed; }
.sheet col.number { width: 4%; }
.sheet col.place { width: 19%; }
.sheet col.ground { width: 13%; }
.sheet col.mode { width: 38%; }
.sheet col.time { width: 15%; }
.sheet col.found { width: 11%; }
.sheet .segments td { overflow-wrap: break-word; }
.sheet .matrix td, .sheet .matrix thead th { text-align: center; padding: 0.4mm; }
.sheet .matrix .planned { border-left: 0.7mm solid #000; border-right: 0.7mm solid #000; font-weight: 700; }
.sheet .rescue { border: 0.8mm solid #000; padding: 2mm 2.5mm; break-inside: avoid; }
.sheet .blank { display: inline-block; min-width: 44mm; border-bottom: 0.3mm solid #000; }
.sheet .pair { display: grid; grid-template-columns: 1fr 1fr; gap: 1mm 6mm; }
.sheet .check { display: block; width: 100mm; height: 3mm; border: solid #000; border-width: 0 0.3mm 0.3mm; }
.sheet section.whole { break-inside: avoid; }
.pocket { max-width: 95mm; }
.pocket .step { break-inside: avoid; border-top: 0.2mm solid #000; padding: 0.6mm 0; }
.pocket .blank { min-width: 40mm; }
.pocket .pair { display: block; }
.pocket .facts { grid-template-columns: max-content 1fr; gap: 0 2mm; }
@media screen { .sheet { padding: 6mm; } }
@media print { .sheet { max-width: none; } }
`;
