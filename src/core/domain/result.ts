/** What the user can mend is a value; what we must mend throws. */
export type Result<T, P> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: P };

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

export const fail = <P>(problem: P): { readonly ok: false; readonly problem: P } => ({ ok: false, problem });
