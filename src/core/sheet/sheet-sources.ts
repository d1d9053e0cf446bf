import { entryOf } from '../assumptions/catalogue';
import type { OwnPace, Project } from '../domain/project';
import type { Station, TerrainSummary } from '../domain/station';
import { digits, gradeClassText, shortLengthText, unknownText } from '../wording/numbers';
import type { Units } from '../wording/units';
import type { Fact } from './sheet-data';

/** Where the elevations come from, how old and how coarse they are, and how wrong slopes can be. */
export function terrainFacts(
  terrain: readonly TerrainSummary[],
  stations: readonly Station[],
  onDate: string | null,
  units: Units,
): Fact[] {
  if (terrain.length === 0) return [{ label: 'Elevations', text: 'none opened: no ground data' }];
  return terrain.map((raster, i) => {
    const parts = [
      `cells ${cellText(raster.cellM, units)}`,
      ageText(raster.surveyed, onDate),
      `heights ±${digits(raster.sigmaZM, 1)} m ${fromText(raster.heightsFrom)}`,
      `slopes ±${slopeErrorText(stations, i)}${hiddenText(stations, i)}`,
      raster.frame,
    ];
    return { label: raster.name, text: parts.join(', ') };
  });
}

const fromText = (from: TerrainSummary['heightsFrom']): string =>
  from === null
    ? '(from sea level or the ellipsoid: not said)'
    : `from ${from === 'ellipsoid' ? 'the ' : ''}${from}`;

const cellText = (cellM: number, units: Units): string =>
  cellM < 10 ? `${digits(cellM, 1)} m` : shortLengthText(cellM, units);

/** `surveyed 2027, 4 years before the day`; the age is in whole years by the calendar. */
export function ageText(surveyed: string | null, onDate: string | null): string {
  if (surveyed === null) return 'date of survey unknown';
  const [year, day] = [/\d{4}/.exec(surveyed)?.[0], /^\d{4}/.exec(onDate ?? '')?.[0]];
  if (year === undefined || day === undefined) return `surveyed ${surveyed}`;
  const years = Number(day) - Number(year);
  if (years <= 0) return `surveyed ${surveyed}`;
  return `surveyed ${surveyed}, ${years} ${years === 1 ? 'year' : 'years'} before the day`;
}

/** Middle standard deviation of the slopes read from one raster. */
function slopeErrorText(stations: readonly Station[], rasterIndex: number): string {
  const sigmas = stations
    .filter((station) => station.rasterIndex === rasterIndex)
    .flatMap((station) => (station.slopeSigmaDeg === null ? [] : [station.slopeSigmaDeg]))
    .sort((a, b) => a - b);
  const middle = sigmas[Math.floor(sigmas.length / 2)];
  return middle === undefined ? unknownText : `${digits(middle, 1)}°`;
}

/** What the modes are decided with and the steepest slope of a row does not show. Empty: nothing is added. */
function hiddenText(stations: readonly Station[], rasterIndex: number): string {
  const mostDeg = stations.reduce(
    (most, station) =>
      station.rasterIndex === rasterIndex
        ? Math.max(most, (station.designSlopeDeg ?? 0) - (station.slopeDeg ?? 0))
        : most,
    0,
  );
  return mostDeg < 0.05 ? '' : ` (for modes up to +${digits(mostDeg, 1)}°: steps that cells hide)`;
}

/** `1.1 (10–20°: ×1.3)`: the factor, and in brackets where the way's grade has another. */
function walkingText({ walkingFactor, walkingByGrade }: OwnPace): string {
  const classes = walkingByGrade.map(
    ({ fromDeg, toDeg, factor }) => `${gradeClassText(fromDeg, toDeg)}: ×${digits(factor, 2)}`,
  );
  return `${digits(walkingFactor, 2)}${classes.length > 0 ? ` (${classes.join(', ')})` : ''}`;
}

/** What differs from the defaults, and the tolerances. */
export function assumptionLines({ assumptions, tolerance, ownPace, walkingRule }: Project): string[] {
  const changed = Object.entries(assumptions).map(([key, figure]) => {
    const entry = entryOf.get(key);
    const unit = entry === undefined || entry.unit === '' ? '' : ` ${entry.unit}`;
    const usual = entry === undefined ? '' : ` (default ${entry.default}${unit})`;
    return `${entry?.label ?? key}: ${figure}${unit}${usual}`;
  });
  return [
    `Of 100 modelled slips may stay unheld: ${tolerance.gentlePct} above a gentle, ${tolerance.injuringPct} above an injuring, ${tolerance.deadlyPct} above a deadly run-out.`,
    `Walking by ${walkingRuleName[walkingRule]}; own pace ×${walkingText(ownPace)} walking, ×${digits(ownPace.placementFactor, 2)} placing.`,
    changed.length === 0
      ? 'Other figures: defaults.'
      : `Changed from the defaults: ${changed.join('; ')}. All others at their defaults.`,
  ];
}

const walkingRuleName = { munter: 'Munter', tobler: 'Tobler', 'din-33466': 'DIN 33466' } as const;
