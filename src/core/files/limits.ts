/** Bounds for everything that comes in from outside (judgement: far above what the job needs, far below what hurts). */
export const limits = {
  /** Track and project files, bytes. */
  textBytes: 50 * 1024 * 1024,
  /** Points over all lines of one file. */
  points: 2_000_000,
  /** Elements or brackets inside each other. */
  depth: 32,
  /** Characters of one name, note or attribute. */
  textChars: 64 * 1024,
  /** Characters of one number. */
  numberChars: 64,
  /** Attributes of one element. */
  attributes: 64,
} as const;
