import { abilities } from '../domain/rope-team';
import { hardnesses, wetnesses } from '../domain/snow';
import { markKinds } from '../domain/mark';
import { modes } from '../domain/mode';
import { runOutClasses } from '../domain/station';
import { defaultTolerance, overrideWays, paceFactorLimits, type Project } from '../domain/project';
import { defaultParty, partyLimits } from '../domain/rope-team';
import { isLocalDateTime, isRealDate, isTimeZone, timeOfDayPattern } from '../domain/calendar';
import { numberFault } from './schema-wording';
import { z } from './zod';

/**
 * The project file's shape, once: types, ranges and what stands for a field that is left out. Every object is loose, so that
 * keys of other makers come back out as they went in.
 */

const number = (min: number, max: number) => {
  const error = numberFault('number', min, max);
  return z.number({ error }).check(z.gte(min, { error }), z.lte(max, { error }));
};
const count = (min: number, max: number) => {
  const error = numberFault('whole number', min, max);
  return z.int({ error }).check(z.gte(min, { error }), z.lte(max, { error }));
};
const within = ([min, max]: readonly [number, number]) => number(min, max);
const text = (maxChars: number) => z._default(z.string().check(z.maxLength(maxChars)), '');
const orNull = <T extends z.core.SomeType>(type: T) => z._default(z.nullable(type), null);
const name = text(10_000);
const note = text(64 * 1024);
/** Empty: a number is given when the file is opened. */
const id = text(100);

const alongM = number(0, 1e8);
const lngDeg = number(-180, 180);
const latDeg = number(-90, 90);
const position = z.tuple([lngDeg, latDeg]);
const elevationM = number(-12_000, 100_000);

const pointObject = z.looseObject({
  position,
  elevationM: orNull(elevationM),
  /** Years 1000 to 2999. */
  timeMs: orNull(number(-30_610_224_000_000, 32_503_680_000_000)),
});
/** A point may be written as its bare position, with or without an elevation. */
const barePoint = z.union([position, z.tuple([lngDeg, latDeg, elevationM])]);
const linePoint = z.pipe(
  z.union([pointObject, barePoint]),
  z.transform((point) =>
    Array.isArray(point)
      ? { position: [point[0], point[1]] as [number, number], elevationM: point[2] ?? null, timeMs: null }
      : point,
  ),
);
const points = z._default(z.array(linePoint), []);
const lineObject = z.looseObject({ id, name, points });
/** A line may be written as its bare points. */
const line = z.pipe(
  z.union([lineObject, z.array(linePoint)]),
  z.transform((value) => (Array.isArray(value) ? { id: '', name: '', points: value } : value)),
);

const hardness = z.enum(hardnesses);
const snowObject = z.looseObject({
  hardness: z._default(hardness, 'P'),
  wetness: z._default(z.enum(wetnesses), 'D'),
});
/** Snow may be written as its bare hardness: dry. */
const snow = z.pipe(
  z.union([snowObject, hardness]),
  z.transform((value) => (typeof value === 'string' ? { hardness: value, wetness: 'D' as const } : value)),
);

const mark = z.looseObject({
  id,
  kind: z.enum(markKinds),
  positions: z.array(position).check(z.minLength(1), z.maxLength(100_000)),
  widthM: orNull(number(0, 10_000)),
  bridge: orNull(z.enum(['solid', 'doubtful', 'poor'])),
  seenOn: orNull(z.string().check(z.refine(isRealDate, 'expected a date such as 2026-05-14'))),
  note,
});

const inOrder = z.refine<{ fromM: number; toM: number }>((stretch) => stretch.fromM <= stretch.toM, {
  message: 'the stretch ends before it begins: expected fromM <= toM',
  path: ['toM'],
});

const override = z
  .looseObject({
    id,
    way: z._default(z.enum(overrideWays), 'both'),
    fromM: alongM,
    toM: alongM,
    mode: orNull(z.enum(modes)),
    snow: orNull(snow),
    runOut: orNull(z.enum(runOutClasses)),
    note,
  })
  .check(inOrder);

const climber = z.looseObject({
  name,
  massKg: z._default(within(partyLimits.massKg.file), 90),
  ability: z._default(z.enum(abilities), 'solid'),
  mayLead: z.optional(z.boolean()),
});
/** Who is not said to lead does not, but somebody must: then it is the first on the rope. */
const climbers = z.pipe(
  z.array(climber).check(z.minLength(1), z.maxLength(partyLimits.climbers.file[1])),
  z.transform((list) =>
    list.map(({ name, massKg, ability, mayLead, ...others }, i) => ({
      name,
      massKg,
      ability,
      mayLead: mayLead ?? i === 0,
      ...others,
    })),
  ),
);

const { rope: defaultRope, rack: defaultRack } = defaultParty;
const rope = z.looseObject({
  lengthM: z._default(within(partyLimits.ropeLengthM.file), defaultRope.lengthM),
  intervalM: z._default(within(partyLimits.intervalM.file), defaultRope.intervalM),
  impactForceKN: z._default(within(partyLimits.impactForceKN.file), defaultRope.impactForceKN),
  staticElongationPct: z._default(
    within(partyLimits.staticElongationPct.file),
    defaultRope.staticElongationPct,
  ),
  brakeKnots: z._default(z.boolean(), defaultRope.brakeKnots),
  half: z._default(z.boolean(), defaultRope.half),
  lowStretch: z._default(z.boolean(), defaultRope.lowStretch),
});
const rack = z.looseObject({
  pickets: z._default(count(...partyLimits.pieces.file), defaultRack.pickets),
  captureDevices: z._default(count(...partyLimits.pieces.file), defaultRack.captureDevices),
});
const party = z.looseObject({
  climbers: z.prefault(climbers, () => defaultParty.climbers.map((each) => ({ ...each }))),
  rope: z.prefault(rope, {}),
  rack: z.prefault(rack, {}),
});

const pct = (standard: number) => z._default(number(0, 100), standard);
const tolerance = z.looseObject({
  gentlePct: pct(defaultTolerance.gentlePct),
  injuringPct: pct(defaultTolerance.injuringPct),
  deadlyPct: pct(defaultTolerance.deadlyPct),
});

const localDateTime = z
  .string()
  .check(z.refine(isLocalDateTime, 'expected a local date and time such as 2026-05-14T04:30'));
const snowChange = z
  .looseObject({
    fromM: alongM,
    toM: alongM,
    at: z.string().check(z.regex(timeOfDayPattern, 'expected a time such as 09:30')),
    snow,
  })
  .check(inOrder);
const schedule = z.looseObject({
  start: orNull(localDateTime),
  zone: z._default(
    z.string().check(z.refine(isTimeZone, 'expected the name of a time zone such as UTC')),
    'UTC',
  ),
  backBy: orNull(localDateTime),
  snowChanges: z._default(z.array(snowChange).check(z.maxLength(1000)), []),
  wayBack: z._default(
    z.union([
      z.enum(['none', 'same-line']),
      z.looseObject({ alternativeId: z.string().check(z.minLength(1)) }),
    ]),
    'none',
  ),
  declinationDeg: orNull(number(-180, 180)),
});

const terrainRef = z.looseObject({
  fileName: z.string().check(z.minLength(1), z.maxLength(1000)),
  checksum: orNull(z.string().check(z.maxLength(200))),
  crs: orNull(z.string().check(z.maxLength(10_000))),
  elevationUnit: orNull(z.enum(['m', 'ft', 'usft', 'cm'])),
  surveyed: orNull(z.string().check(z.maxLength(100))),
  sigmaZM: orNull(number(0.001, 1000)),
});

const factor = z._default(within(paceFactorLimits.file), 1);
const gradePace = z.looseObject({
  fromDeg: number(0, 90),
  toDeg: number(0, 90),
  factor: within(paceFactorLimits.file),
});
const ownPace = z.looseObject({
  walkingFactor: factor,
  walkingByGrade: z._default(z.array(gradePace).check(z.maxLength(20)), []),
  placementFactor: factor,
});

export const projectFormat = 'firnward-project';
export const projectVersion = 1;

export const projectFile = z.looseObject({
  format: z.literal(projectFormat),
  version: z.literal(projectVersion),
  name,
  line: z.prefault(line, {}),
  /** Every line drawn or opened stays here: what the page itself makes must always open again. */
  alternatives: z._default(z.array(line).check(z.maxLength(10_000)), []),
  marks: z._default(z.array(mark).check(z.maxLength(10_000)), []),
  overrides: z._default(z.array(override).check(z.maxLength(10_000)), []),
  party: z.prefault(party, {}),
  snow: z.prefault(snow, {}),
  tolerance: z.prefault(tolerance, {}),
  assumptions: z._default(z.record(z.string().check(z.maxLength(200)), z.number()), {}),
  schedule: z.prefault(schedule, {}),
  terrain: z._default(z.array(terrainRef).check(z.maxLength(100)), []),
  ownPace: z.prefault(ownPace, {}),
  walkingRule: z._default(z.enum(['munter', 'tobler', 'din-33466']), 'munter'),
  lastTakesLead: z._default(z.boolean(), false),
  turnsRoundGoingDown: z._default(z.boolean(), true),
  onGlacier: z._default(z.boolean(), true),
  notes: note,
});

export type ProjectFile = z.infer<typeof projectFile>;

type DomainFile = Project & { format: typeof projectFormat; version: typeof projectVersion };
type Fits<A extends B, B> = A;
/** Does not compile when the schema and the domain's Project differ in a field. */
export type OneProject = [Fits<Known<ProjectFile>, DomainFile>, Fits<DomainFile, Known<ProjectFile>>];

/** The named fields only, read-only all the way down: what a loose object certainly holds. */
type Known<T> = T extends readonly [unknown, ...unknown[]]
  ? { readonly [K in keyof T]: Known<T[K]> }
  : T extends readonly (infer Item)[]
    ? readonly Known<Item>[]
    : T extends object
      ? string extends NamedKeys<T>
        ? Readonly<T>
        : { readonly [K in NamedKeys<T>]: Known<T[K]> }
      : T;
type NamedKeys<T> = keyof { [K in keyof T as string extends K ? never : K]: 0 } extends infer Named
  ? [Named] extends [never]
    ? keyof T
    : Named & keyof T
  : never;
