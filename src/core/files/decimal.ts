import { limits } from './limits';

/** Why a text is not a number that can be read without guessing. */
export type NumberFault = 'not a number' | 'decimal comma' | 'other notation';

/** A decimal as XML Schema writes it: digits with an optional sign and point, no exponent, nothing around it but space. */
export function readDecimal(text: string): number | NumberFault {
  const bare = text.trim();
  if (bare.length <= limits.numberChars && /^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(bare)) return Number(bare);
  if (/^[+-]?\d+,\d+$/.test(bare)) return 'decimal comma';
  if (/\d/.test(bare) && /[NSEW°º'"′″]/i.test(bare) && !/^[+-]?\d+(\.\d*)?e/i.test(bare))
    return 'other notation';
  return 'not a number';
}
