import { model } from 'geomagnetism';
import type { LngLat } from '../domain/coordinates';
import { digits } from '../wording/numbers';

/** Angle from true to magnetic north, degrees, positive east, with what it rests on. */
export interface Declination {
  readonly deg: number;
  /** One standard deviation of the model, degrees; null: entered by hand. */
  readonly sigmaDeg: number | null;
  readonly text: string;
  /** false near a magnetic pole or beyond the model's years: not to be steered by. */
  readonly isUsable: boolean;
}

/** First and last instant of the coefficients kept with the program: WMM 2015 to WMM 2025. */
const modelYears = [Date.parse('2014-12-16T00:00:00Z'), Date.parse('2029-11-12T00:00:00Z')] as const;

/** Horizontal field under which a compass is not to be trusted, nT (World Magnetic Model's black-out zone). */
const leastHorizontalNT = 2000;

/** The declination to steer by: the guide's own where one is entered, with the model's beside it; else the model's. */
export function declinationFor(
  position: LngLat,
  date: string | null,
  enteredDeg: number | null,
): Declination | null {
  const computed = declinationAt(position, date);
  if (enteredDeg === null) return computed;
  const beside = computed === null ? '' : ` (the model: ${sideText(computed.deg)})`;
  return {
    deg: enteredDeg,
    sigmaDeg: null,
    isUsable: true,
    text: `Magnetic declination ${sideText(enteredDeg)}, as entered${beside}.`,
  };
}

/**
 * Declination at sea level by the World Magnetic Model kept with the program. null: no date to compute it for.
 * @source NOAA/NCEI and British Geological Survey, World Magnetic Model 2025; its error model:
 * sigma = sqrt(0.26^2 + (5417 / H)^2) degrees, H in nT.
 */
export function declinationAt([lngDeg, latDeg]: LngLat, date: string | null): Declination | null {
  const instant = date === null ? NaN : Date.parse(`${date.slice(0, 10)}T12:00:00Z`);
  if (Number.isNaN(instant)) return null;
  const [firstMs, lastMs] = modelYears;
  const isInYears = instant >= firstMs && instant <= lastMs;
  const field = model(new Date(Math.min(lastMs, Math.max(firstMs, instant))));
  const { decl, h } = field.point([latDeg, lngDeg]);
  const isUsable = isInYears && h >= leastHorizontalNT;
  const sigmaDeg = Math.hypot(0.26, 5417 / h);
  const figure = `${sideText(decl)} (±${digits(sigmaDeg, 1)}°)`;
  const note =
    h < leastHorizontalNT
      ? ' A compass is unreliable here.'
      : isInYears
        ? ''
        : ' The date is outside the years of the model: not to be used.';
  return {
    deg: decl,
    sigmaDeg,
    isUsable,
    text: `Magnetic declination ${figure} on ${date!.slice(0, 10)}, ${field.name}.${note}`,
  };
}

const sideText = (deg: number): string => `${digits(Math.abs(deg), 1)}° ${deg < 0 ? 'west' : 'east'}`;
