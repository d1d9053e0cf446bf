/** A question with a few answers, asked beside the page. */
export interface Choice {
  readonly title: string;
  readonly detail: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  /** Other answers may be typed. */
  readonly typed: boolean;
}

/** null: put away without an answer. */
export type Ask = (choice: Choice) => Promise<string | null>;

/** Reading a strange file may never end: a worker that does not answer a cancel for so long is stopped. */
export const stuckAfterMs = 1500;
