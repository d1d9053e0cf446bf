import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Override, Project, Schedule, SnowChange } from '../../../src/core/domain/project';
import type { Plan } from '../../../src/core/domain/segment';
import { arrivalsOf } from '../../../src/core/plan/arrivals';
import { planWith, type PlanInput } from '../../../src/core/plan/make-plan';
import { turnRoundText } from '../../../src/core/plan/turn-round';
import { pointsBack } from '../../../src/core/plan/way';
import { fakeSlips } from './fake-slips';
import { evenly, placeAt, profileOf, projectOf, type Ground } from './invented';

const scheduleOf = (changes: Partial<Schedule>): Schedule => ({
  start: '2026-01-17T04:00',
  zone: 'Etc/GMT+1',
  backBy: null,
  snowChanges: [],
  declinationDeg: null,
  wayBack: 'none',
  ...changes,
});

const planOf = (
  grounds: readonly Ground[],
  schedule: Partial<Schedule>,
  changes: Partial<Project> = {},
  more: Partial<PlanInput> = {},
): Plan =>
  planWith(fakeSlips, {
    profile: profileOf(grounds),
    project: projectOf({ schedule: scheduleOf(schedule), ...changes }),
    figures: defaultFigures,
    settling: false,
    ...more,
  });

const paintedOf = (override: Partial<Override>): Override => ({
  id: 'o',
  way: 'both',
  fromM: 0,
  toM: 0,
  mode: null,
  snow: null,
  runOut: null,
  note: '',
  ...override,
});

const seconds = (iso: string | null) => Date.parse(iso ?? '') / 1000;
const codes = ({ warnings }: Plan) => warnings.map(({ code }) => code);
const climb = [...evenly(100, { slopeDeg: 12 }), ...evenly(60, { slopeDeg: 18 })];

describe('clock', () => {
  test('segments follow one another from the start, and the last one leaves when the line is done', () => {
    const { segments, totals } = planOf(climb, {});
    expect(segments[0]!.arrive).toBe('2026-01-17T04:00:00-01:00');
    segments.slice(1).forEach((segment, i) => expect(segment.arrive).toBe(segments[i]!.leave));
    expect(segments.at(-1)!.leave).toBe(totals.arrive);
    expect(seconds(totals.arrive) - seconds(segments[0]!.arrive)).toBeCloseTo(totals.time.defaultS, -1);
  });

  test('beyond ground without data no clock time is given', () => {
    const { segments, totals } = planOf([...climb, ...evenly(20, { slopeDeg: null }), ...climb], {});
    const hole = segments.findIndex(({ mode }) => mode === 'no-data');
    expect(segments[hole]!.arrive).not.toBeNull();
    expect(segments[hole]!.leave).toBeNull();
    expect(segments.slice(hole + 1).every(({ arrive }) => arrive === null)).toBe(true);
    expect(totals.arrive).toBeNull();
  });

  test('a start the clocks skip is said, and the plan stands without a clock', () => {
    const made = planOf(climb, { start: '2026-03-29T02:30', zone: 'Europe/Lisbon' });
    expect(made.totals.time.defaultS).toBeGreaterThan(0);
    const skipped = planOf(climb, { start: '2026-03-29T01:30', zone: 'Europe/Lisbon' });
    expect(skipped.totals.arrive).toBeNull();
    expect(codes(skipped)).toContain('clock');
  });
});

describe('snow by the clock', () => {
  const tolerance = { gentlePct: 100, injuringPct: 40, deadlyPct: 20 };
  const grounds = evenly(400, { slopeDeg: 24 });
  const toKnife = (at: string, fromM = 0, toM = 1995): SnowChange => ({
    fromM,
    toM,
    at,
    snow: { hardness: 'K', wetness: 'D' },
  });

  test('what is reached after the change is decided again and flagged; what is reached before is not', () => {
    const before = planOf(grounds, {}, { tolerance });
    expect(before.segments.map(({ mode }) => mode)).toEqual(['roped']);
    const made = planOf(grounds, { snowChanges: [toKnife('06:00')] }, { tolerance });
    const changed = made.segments.filter(({ snowChanged }) => snowChanged);
    expect(changed.length).toBeGreaterThan(0);
    expect(made.segments.length).toBeGreaterThan(changed.length);
    for (const segment of made.segments) {
      // A segment begins half a step before its first station.
      const isLate = seconds(segment.arrive) >= seconds('2026-01-17T06:00:00-01:00') - 60;
      expect(segment.snowChanged).toBe(isLate);
      expect(segment.snow.hardness).toBe(isLate ? 'K' : 'P');
      expect(segment.mode).toBe(isLate ? 'running-belay' : 'roped');
    }
    expect(codes(made)).toContain('snow-changed');
  });

  test('a change after the team is through changes nothing', () => {
    expect(
      planOf(grounds, { snowChanges: [toKnife('20:00')] }, { tolerance }).segments.some((s) => s.snowChanged),
    ).toBe(false);
  });

  test('before the start it is in force from the beginning', () => {
    const made = planOf(grounds, { snowChanges: [toKnife('02:00')] });
    expect(made.segments.every(({ snowChanged }) => snowChanged)).toBe(true);
  });

  test('without a clock nobody can say when: nothing changes', () => {
    const made = planOf(grounds, { start: null, snowChanges: [toKnife('02:00')] });
    expect(made.segments.some(({ snowChanged }) => snowChanged)).toBe(false);
  });
});

describe('there and back', () => {
  const grounds = [...evenly(100, { slopeDeg: 12 }), ...evenly(60, { slopeDeg: 37 })];
  const party = { ...projectOf().party, rack: { pickets: 6, captureDevices: 4 } };

  test('the same line back: the last stretch first, down, without devices', () => {
    const made = planOf(grounds, { wayBack: 'same-line' }, { party });
    const back = made.wayBack!;
    expect(made.segments.at(-1)!.variant).toBe('running-capture');
    expect(back.segments[0]!.goingDown).toBe(true);
    expect(back.segments.map(({ variant }) => variant)).not.toContain('running-capture');
    expect(back.segments.at(-1)!.toM).toBe(made.segments.at(-1)!.toM);
    expect(back.totals.descentM).toBeCloseTo(made.totals.ascentM!, 6);
    expect(back.segments[0]!.arrive).toBe(made.totals.arrive);
    expect(back.stations[0]!.position).toEqual(made.stations.at(-1)!.position);
    // The team turns round for the way down.
    expect(back.segments[0]!.parts!.transitionS).toBeGreaterThanOrEqual(180);
  });

  test('stretches painted by distance are turned with it', () => {
    const overrides = [paintedOf({ fromM: 100, toM: 180, mode: 'pitched-belay' })];
    const made = planOf(grounds, { wayBack: 'same-line' }, { overrides });
    const set = made.wayBack!.segments.filter(({ overridden }) => overridden);
    expect([set[0]!.fromM, set.at(-1)!.toM]).toEqual([795 - 180, 795 - 100]);
  });

  test('a stretch holds for the way it is set for', () => {
    const overrides = [
      paintedOf({ id: 'there', way: 'there', fromM: 50, toM: 100, mode: 'pitched-belay' }),
      paintedOf({ id: 'back', way: 'back', fromM: 200, toM: 300, mode: 'running-belay' }),
    ];
    const made = planOf(grounds, { wayBack: 'same-line' }, { overrides });
    const setOn = ({ segments }: Plan) =>
      segments.filter(({ overridden }) => overridden).map(({ fromM, toM, mode }) => [fromM, toM, mode]);
    expect(setOn(made)).toEqual([[50, 100, 'pitched-belay']]);
    expect(setOn(made.wayBack!)).toEqual([[795 - 300, 795 - 200, 'running-belay']]);
    expect(codes(made)).not.toContain('way-back-painted');
    expect(codes(planOf(grounds, {}, { overrides }))).toContain('way-back-painted');
  });

  test('what is said of one way goes before what is said of both', () => {
    const knife = { hardness: 'K', wetness: 'D' } as const;
    const fist = { hardness: 'F', wetness: 'D' } as const;
    const overrides = [
      paintedOf({ id: 'back', way: 'back', fromM: 0, toM: 400, snow: fist }),
      paintedOf({ id: 'both', fromM: 100, toM: 400, snow: knife }),
    ];
    const made = planOf(grounds, { wayBack: 'same-line' }, { overrides });
    const snowAt = ({ segments }: Plan, alongM: number) =>
      segments.find(({ fromM, toM }) => alongM >= fromM && alongM < toM)!.snow.hardness;
    expect(snowAt(made, 200)).toBe('K');
    expect([snowAt(made.wayBack!, 795 - 200), snowAt(made.wayBack!, 795 - 50)]).toEqual(['F', 'F']);
  });

  test('another line back has what is set for the way back, from where it begins, and nothing else', () => {
    const wayBackProfile = profileOf(evenly(50, { slopeDeg: 9, down: true, runOut: 'gentle' }));
    const knife = { hardness: 'K', wetness: 'D' } as const;
    const overrides = [
      paintedOf({ id: 'both', fromM: 0, toM: 100, mode: 'pitched-belay' }),
      paintedOf({ id: 'back', way: 'back', fromM: 150, toM: 200, mode: 'running-belay', snow: knife }),
    ];
    const made = planOf(grounds, { wayBack: { alternativeId: 'b' } }, { overrides }, { wayBackProfile });
    const set = made.wayBack!.segments.filter(({ overridden }) => overridden);
    expect(set.map(({ fromM, toM, mode, snow }) => [fromM, toM, mode, snow.hardness])).toEqual([
      [150, 200, 'running-belay', 'K'],
    ]);
    // Only snow that is said of both ways is missing on the other line.
    expect(codes(made)).not.toContain('way-back-snow');
    const both = [paintedOf({ fromM: 0, toM: 100, snow: knife })];
    expect(
      codes(planOf(grounds, { wayBack: { alternativeId: 'b' } }, { overrides: both }, { wayBackProfile })),
    ).toContain('way-back-snow');
  });

  test('the latest turn-round is the time to be back by less the way back', () => {
    const made = planOf(grounds, { wayBack: 'same-line', backBy: '2026-01-18T04:00' }, { party });
    const wayS = seconds('2026-01-18T04:00:00-01:00') - seconds(made.totals.turnRound);
    expect(wayS).toBeCloseTo(made.wayBack!.totals.time.defaultS, -1);
    expect(codes(made)).toContain('turn-round');
    expect(codes(made)).not.toContain('too-late');
    const late = planOf(grounds, { wayBack: 'same-line', backBy: '2026-01-17T09:00' }, { party });
    expect(codes(late)).toContain('no-turn-round');
    expect(late.totals.turnRound).toBeNull();
    const undated = planOf(grounds, { start: null, wayBack: 'same-line' }, { party });
    expect([made, late, undated].map(turnRoundText)).toEqual([
      expect.stringMatching(/^\d\d:\d\d( next day)?$/),
      'no time for it',
      'not computed',
    ]);
  });

  test('another line back has its own ground', () => {
    const wayBackProfile = profileOf(evenly(50, { slopeDeg: 9, down: true, runOut: 'gentle' }));
    const made = planOf(grounds, { wayBack: { alternativeId: 'b' } }, {}, { wayBackProfile });
    expect(made.wayBack!.totals.lengthM).toBe(245);
    expect(made.wayBack!.segments.map(({ mode }) => mode)).toEqual(['roped']);
  });

  test('another line back is gone from the end that is nearer to the end of the way there', () => {
    const at = (northM: number) => ({ position: placeAt(northM), elevationM: null, timeMs: null });
    const fromBelow = [at(0), at(400), at(800)];
    const schedule = scheduleOf({ wayBack: { alternativeId: 'b' } });
    const lineOf = (points: typeof fromBelow) =>
      projectOf({ schedule, alternatives: [{ id: 'b', name: 'b', points }] });
    const back = pointsBack(lineOf(fromBelow), placeAt(795));
    expect(back).toEqual(fromBelow.toReversed());
    expect(pointsBack(lineOf(fromBelow), placeAt(795))).toBe(back);
    expect(pointsBack(lineOf(fromBelow), placeAt(5))).toBe(fromBelow);
    expect(pointsBack(lineOf([at(0)]), placeAt(5))).toBeNull();
    expect(pointsBack(projectOf({ schedule }), placeAt(5))).toBeNull();
  });

  test('a way back that begins far from the end of the line is said', () => {
    const profile = profileOf(grounds);
    // As long a line from the same start: its beginning lies a whole line away.
    const far = planOf(grounds, { wayBack: { alternativeId: 'b' } }, {}, { wayBackProfile: profile });
    expect(far.warnings.find(({ code }) => code === 'way-back-gap')?.text).toMatch(/begins 79\d m/);
    const stations = profile.stations.toReversed().map((each, i) => ({ ...each, alongM: i * 5 }));
    const near = { ...profile, stations };
    expect(
      codes(planOf(grounds, { wayBack: { alternativeId: 'b' } }, {}, { wayBackProfile: near })),
    ).not.toContain('way-back-gap');
  });

  test('another line back whose ground is not there is said, and nothing is planned on it', () => {
    const made = planOf(grounds, { wayBack: { alternativeId: 'b' } });
    expect(made.wayBack).toBeNull();
    expect(made.warnings.find(({ code }) => code === 'way-back')?.weight).toBe(3);
    expect(codes(planOf(grounds, { wayBack: 'none' }))).not.toContain('way-back');
    expect(codes(planOf(grounds, { wayBack: 'same-line' }))).not.toContain('way-back');
  });

  test('snow that changes on the whole line changes on another line back too; what is painted on a part is named', () => {
    const wayBackProfile = profileOf(evenly(50, { slopeDeg: 20, down: true }));
    const knife = { hardness: 'K', wetness: 'D' } as const;
    const backWith = (toM: number) =>
      planOf(
        climb,
        { wayBack: { alternativeId: 'b' }, snowChanges: [{ fromM: 0, toM, at: '04:30', snow: knife }] },
        {},
        { wayBackProfile },
      );
    const whole = backWith((climb.length - 1) * 5);
    expect(whole.wayBack!.segments.map(({ snow }) => snow.hardness)).toEqual(['K']);
    expect(codes(whole)).not.toContain('way-back-snow');
    const part = backWith(300);
    expect(part.wayBack!.segments.map(({ snow }) => snow.hardness)).toEqual(['P']);
    expect(part.warnings.find(({ code }) => code === 'way-back-snow')?.weight).toBe(2);
  });

  test('the date of survey that the user gives counts for the way back too', () => {
    const terrain = [
      {
        fileName: 'invented',
        checksum: null,
        crs: null,
        elevationUnit: null,
        surveyed: '2025',
        sigmaZM: null,
      },
    ];
    const wayBackProfile = profileOf(evenly(50, { slopeDeg: 9, down: true }));
    const backs = [
      planOf(climb, { wayBack: 'same-line' }, { terrain }),
      planOf(climb, { wayBack: { alternativeId: 'b' } }, { terrain }, { wayBackProfile }),
    ].map(({ wayBack }) => codes(wayBack!));
    for (const back of backs) expect(back).not.toContain('survey-age');
    expect(codes(planOf(climb, { wayBack: 'same-line' }).wayBack!)).toContain('survey-age');
  });
});

describe('what the clock cannot tell', () => {
  test('a time to be back by that does not exist is said', () => {
    const made = planOf(climb, { zone: 'Europe/Lisbon', backBy: '2026-03-29T01:30' });
    expect(codes(made)).toContain('clock');
    expect(made.totals.arrive).toBeNull();
  });

  test('a change of snow at no time of day never comes', () => {
    const snow = { hardness: 'K', wetness: 'D' } as const;
    const made = planOf(climb, { snowChanges: [{ fromM: 0, toM: 5000, at: '25:70', snow }] });
    expect(made.segments.some(({ snowChanged }) => snowChanged)).toBe(false);
  });

  test('nobody can say when places behind ground without data are reached', () => {
    const hole = { fromM: 100, toM: 200, time: null };
    const done = { fromM: 0, toM: 100, time: { lowS: 80, defaultS: 100, highS: 140 } };
    const arrivals = arrivalsOf([done, hole, { ...done, fromM: 200, toM: 300 }]);
    expect([0, 50, 100, 150, 250].map((m) => arrivals.atS(m))).toEqual([0, 50, 100, null, null]);
    expect(arrivals.endS).toBeNull();
    expect(arrivalsOf([]).atS(0)).toBeNull();
  });

  test('there and back over ground without data, and on no line at all', () => {
    const made = planOf([...climb, ...evenly(20, { slopeDeg: null })], { wayBack: 'same-line' });
    expect(made.wayBack!.segments[0]).toMatchObject({ mode: 'no-data', arrive: null });
    const none = planOf([], { wayBack: 'same-line' });
    expect(none.segments).toEqual([]);
    expect(none.wayBack!.segments).toEqual([]);
    const one = planOf([{ slopeDeg: 12 }], {});
    expect(one.segments.map(({ lengthM, slopeMeanDeg }) => [lengthM, slopeMeanDeg])).toEqual([[0, 12]]);
  });
});
