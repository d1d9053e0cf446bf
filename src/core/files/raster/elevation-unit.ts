export type ElevationUnit = 'm' | 'ft' | 'usft' | 'cm';

/** Metres per unit. The international foot is exact (1959 agreement); the US survey foot is 1200/3937 m (NIST SP 811 B.6). */
export const metresPer: Readonly<Record<ElevationUnit, number>> = {
  m: 1,
  ft: 0.3048,
  usft: 1200 / 3937,
  cm: 0.01,
};

/** What the file says its heights are measured in, as metres per unit, and where it says so. */
export interface StatedUnit {
  readonly metres: number;
  readonly where: string;
}

/** EPSG units of length (EPSG dataset, unit of measure): metres per unit. */
const unitCodes: Readonly<Record<number, number>> = {
  1025: 0.001,
  1033: 0.01,
  9001: 1,
  9002: 0.3048,
  9003: 1200 / 3937,
  9005: 0.3047972654,
  9036: 1000,
  9041: 0.3047997347,
  9080: 0.304799514154,
  9094: 0.304799710181,
  9095: 0.3048007491,
};

export const metresOfUnitCode = (code: number): number | null => unitCodes[code] ?? null;

/** A unit written in words, as in a band's unit or a citation. null: not understood. */
export function metresOfUnitText(text: string): number | null {
  const word = text
    .trim()
    .toLowerCase()
    .replaceAll(/[_\s-]+/g, ' ')
    .replace(/\.$/, '');
  if (/^(m|met(er|re)s?|mtr)$/.test(word)) return 1;
  if (/^(cm|centimet(er|re)s?)$/.test(word)) return 0.01;
  if (/^(dm|decimet(er|re)s?)$/.test(word)) return 0.1;
  if (/^(mm|millimet(er|re)s?)$/.test(word)) return 0.001;
  if (
    /^(us ?ft|ft ?us|us survey (foot|feet|ft)|(foot|feet) us|sft|us (foot|feet)|(foot|feet)[ _]us)$/.test(
      word,
    )
  )
    return 1200 / 3937;
  if (/^(ft|foot|feet|international (foot|feet)|ift|')$/.test(word)) return 0.3048;
  return null;
}
