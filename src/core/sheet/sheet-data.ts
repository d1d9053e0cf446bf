/** Everything the printed sheet says, in words and figures ready to print. Filled by make-sheet. */
export interface SheetData {
  readonly title: string;
}
