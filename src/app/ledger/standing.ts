/** Inputs by identity: an answer asked of some stands beside the plan made from the same, however often that is refined. */
export interface Standing {
  /** What there is to ask of now. */
  readonly asked: object | null;
  /** What the plan that is shown was made from. */
  readonly shown: object | null;
}

/** Whether the plan that is shown is the answer to what there is to ask of. */
export const isCurrent = ({ asked, shown }: Standing): boolean => asked === shown;
