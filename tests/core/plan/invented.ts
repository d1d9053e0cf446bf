import type { LngLat } from '../../../src/core/domain/coordinates';
import type { Mark, MarkKind } from '../../../src/core/domain/mark';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { defaultTolerance, type Project } from '../../../src/core/domain/project';
import { hardnesses, type Hardness } from '../../../src/core/domain/snow';
import type { GroundProfile, RunOut, RunOutClass, Station } from '../../../src/core/domain/station';

/** Invented ground and teams: a line going north in mid-ocean. */
const metresPerDegree = 111_320;

export const placeAt = (alongM: number, eastM = 0): LngLat => [
  -30 + eastM / metresPerDegree,
  alongM / metresPerDegree,
];

export interface Ground {
  /** null: no ground data. */
  readonly slopeDeg: number | null;
  readonly runOut?: RunOutClass;
  readonly sigmaDeg?: number;
  readonly betaDeg?: number;
  readonly down?: boolean;
  readonly curvaturePerM?: number;
  /** Otherwise what the slopes come to, from 1000 m on. */
  readonly elevationM?: number;
}

const runOutsOf = (runOut: RunOutClass): Record<Hardness, RunOut> =>
  Object.fromEntries(
    hardnesses.map((hardness) => [
      hardness,
      { class: runOut, ending: 'stops', maxSpeedMS: 1, lengthM: 10, dropM: 5 },
    ]),
  ) as Record<Hardness, RunOut>;

/** One station every 5 m; the line goes straight up the slope given for each (or down it). */
export function profileOf(grounds: readonly Ground[], stepM = 5): GroundProfile {
  let elevationM = 1000;
  const stations = grounds.map((ground, i): Station => {
    const { slopeDeg } = ground;
    const gradeDeg = slopeDeg === null ? null : (ground.down === true ? -1 : 1) * slopeDeg;
    if (i > 0) elevationM += stepM * Math.tan(((gradeDeg ?? 0) * Math.PI) / 180);
    return {
      alongM: i * stepM,
      position: placeAt(i * stepM),
      bearingDeg: 0,
      elevationM: slopeDeg === null ? null : (ground.elevationM ?? elevationM),
      slopeDeg,
      designSlopeDeg: slopeDeg,
      slopeSigmaDeg: slopeDeg === null ? null : (ground.sigmaDeg ?? 0.5),
      aspectDeg: slopeDeg === null ? null : 180,
      curvaturePerM: slopeDeg === null ? null : (ground.curvaturePerM ?? 0),
      gradeDeg,
      betaDeg: slopeDeg === null ? null : (ground.betaDeg ?? 0),
      runOut: slopeDeg === null ? null : runOutsOf(ground.runOut ?? 'deadly'),
      rasterIndex: slopeDeg === null ? null : 0,
    };
  });
  return {
    stations,
    lengthM: stations.at(-1)?.alongM ?? 0,
    stepM,
    terrain: [
      {
        name: 'invented',
        cellM: 5,
        frame: 'none',
        surveyed: null,
        heightsFrom: null,
        sigmaZM: 0.3,
        encoding: '',
        checksum: null,
      },
    ],
    notes: [],
  };
}

export const evenly = (count: number, ground: Ground): Ground[] =>
  Array.from({ length: count }, () => ground);

export function projectOf(changes: Partial<Project> = {}): Project {
  return {
    name: 'invented',
    line: { id: 'line', name: 'line', points: [] },
    alternatives: [],
    marks: [],
    overrides: [],
    party: defaultParty,
    snow: { hardness: 'P', wetness: 'D' },
    tolerance: defaultTolerance,
    assumptions: {},
    schedule: {
      start: null,
      zone: 'UTC',
      backBy: null,
      snowChanges: [],
      wayBack: 'none',
      declinationDeg: null,
    },
    terrain: [],
    ownPace: { walkingFactor: 1, walkingByGrade: [], placementFactor: 1 },
    walkingRule: 'munter',
    lastTakesLead: false,
    turnsRoundGoingDown: true,
    onGlacier: true,
    notes: '',
    ...changes,
  };
}

export const markOf = (kind: MarkKind, positions: readonly LngLat[], more: Partial<Mark> = {}): Mark => ({
  id: kind,
  kind,
  positions,
  widthM: null,
  bridge: null,
  seenOn: null,
  note: '',
  ...more,
});
