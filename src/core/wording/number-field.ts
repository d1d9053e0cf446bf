import { quantity, type QuantityKind } from './quantity';
import type { Units } from './units';

/** What a number field accepts, in the unit that is shown. */
export interface NumberRule {
  /** As it reads within a sentence: `the rope length in metres`. */
  readonly asked: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly wholeOnly?: boolean;
}

/** A field as its form describes it: label, kind, and limits as stored. */
export interface NumberFieldOf {
  readonly label: string;
  readonly kind: QuantityKind;
  readonly min: number;
  readonly max: number;
  readonly units: Units;
  readonly wholeOnly?: boolean;
  /** In place of the quantity's own unit. */
  readonly unit?: string | undefined;
}

/**
 * The field's rule in the unit that is shown. Converted limits are narrowed to hundredths: three decimals could be read two ways,
 * so a limit that is named could not be typed.
 */
export function numberRule({
  label,
  kind,
  min,
  max,
  units,
  wholeOnly = false,
  unit,
}: NumberFieldOf): NumberRule {
  const shown = quantity(kind, units);
  const parts = shown.size === 1 ? 10_000 : 100;
  return {
    asked: `${label.toLowerCase()}${shown.unitWord === '' ? '' : ` in ${shown.unitWord}`}`,
    unit: unit ?? shown.unit,
    min: Math.ceil((min / shown.size) * parts - 1e-6) / parts,
    max: Math.floor((max / shown.size) * parts + 1e-6) / parts,
    wholeOnly,
  };
}

export type NumberReading =
  { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string };

const zeros = [0x0660, 0x06f0, 0x0966];

/** Full-width, Arabic-Indic, Persian and Devanagari digits to ASCII; typographic minus to a hyphen; spaces trimmed. */
function plain(text: string): string {
  return text
    .normalize('NFKC')
    .replaceAll(/\p{Nd}/gu, (digit) => {
      const code = digit.codePointAt(0)!;
      const zero = zeros.find((z) => code >= z && code <= z + 9);
      return zero === undefined ? digit : String(code - zero);
    })
    .replaceAll('\u2212', '-')
    .replaceAll('\u066b', ',')
    .trim();
}

const refuse = (message: string): NumberReading => ({ ok: false, message });

/** Reads a typed number. Point and comma both part decimals; what can be read two ways is refused, never guessed. */
export function readNumber(text: string, rule: NumberRule): NumberReading {
  const typed = plain(text);
  if (typed === '') return refuse(`Enter ${rule.asked}`);
  const unit = plain(rule.unit);
  const hasUnit = unit !== '' && typed.toLowerCase().endsWith(unit.toLowerCase());
  const bare = (hasUnit ? typed.slice(0, -unit.length) : typed).trim();

  const found = /^([+-]?)(\d+)(?:([.,])(\d+))?$/.exec(bare);
  if (!found)
    return refuse(`“${text.trim()}” is not a plain number. Enter ${rule.asked}, for example ${rule.min}`);
  const [, sign = '', whole = '', mark, decimals = ''] = found;
  const looksGrouped =
    mark !== undefined && decimals.length === 3 && whole.length <= 3 && !whole.startsWith('0');
  if (looksGrouped && !hasUnit) {
    return refuse(
      `${bare} can be read two ways. Type ${whole}${decimals}, or ${whole}.${decimals} with its unit: ${whole}.${decimals} ${rule.unit}`.trim(),
    );
  }

  const value = Number(`${sign}${whole}.${decimals === '' ? '0' : decimals}`);
  if (rule.wholeOnly === true && !Number.isInteger(value))
    return refuse(`Enter a whole number for ${rule.asked}`);
  if (!Number.isFinite(value) || value < rule.min || value > rule.max) {
    return refuse(`Enter ${rule.asked} between ${rule.min} and ${rule.max}`);
  }
  return { ok: true, value: value === 0 ? 0 : value };
}
