import { describe, expect, test } from 'vitest';
import type { Plan, Segment } from '../../../src/core/domain/segment';
import type { Project } from '../../../src/core/domain/project';
import { distanceAxis, timeAxis } from '../../../src/core/sheet/along-axis';
import { linearScale, roundTicks, timeTicks } from '../../../src/core/sheet/axis';
import { bandPath } from '../../../src/core/sheet/drawn-line';
import { declinationFor } from '../../../src/core/sheet/declination';
import { drawLowerLane } from '../../../src/core/sheet/lower-lane';
import type { ProfileColumns } from '../../../src/core/sheet/profile-columns';
import { makeSheet, type SheetInput } from '../../../src/core/sheet/make-sheet';
import { sheetHtml, type SheetHtmlOptions } from '../../../src/core/sheet/sheet-html';
import { ageText } from '../../../src/core/sheet/sheet-sources';
import { whiteout } from '../../../src/core/sheet/whiteout';
import { metresPerMile } from '../../../src/core/wording/units';
import { madeUpMatrix } from '../../app/fixture/made-up-matrix';
import { madeUpPlan, madeUpProfile, madeUpProject, positionAlong } from '../../app/fixture/made-up-plan';

/** Sheets of days unlike the usual one: what is not known is said to be so, and nothing falls over. */
function wordsOf(changes: Partial<SheetInput>, options: SheetHtmlOptions = {}): string {
  const plan = changes.plan ?? madeUpPlan();
  const input = {
    ...{ plan, project: madeUpProject, terrain: madeUpProfile(plan).terrain, matrix: madeUpMatrix(plan) },
    ...{ madeAt: '2027-05-13T18:40:00-02:00', ...changes },
  };
  return sheetHtml(makeSheet(input), options)
    .replace(/<style>[\s\S]*?<\/style>/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('\u202f', ' ')
    .replaceAll(/\s+/g, ' ');
}
const projectWith = (changes: Partial<Project>): Project => ({ ...madeUpProject, ...changes });
const planWith = (changes: Partial<Plan>): Plan => ({ ...madeUpPlan(), ...changes });
const segmentsWith = (change: (segment: Segment) => Partial<Segment>): Plan =>
  planWith({ segments: madeUpPlan().segments.map((segment) => ({ ...segment, ...change(segment) })) });

describe('in feet and miles', () => {
  test('lengths, heights and rises; the mile on the heads of the table', () => {
    const words = wordsOf({ units: 'imperial' }, { withOverleaf: true });
    // 620 m are 2034 ft and 0.39 mi; the line of 1900 m is 1.18 mi.
    expect(words).toContain('0.39');
    expect(words).toContain('2034');
    expect(words).toContain('1.18 mi');
    expect(words).toContain('From mi Height ft');
    expect(words).toContain('13 ft wide');
    expect(words).toContain('+2427 ft');
    // Metres stay in the words of the warnings, which this fixture wrote, in the size of a distress signal, and in raster cells.
    expect(words.match(/[\d.]+ (km|m)\b/g)).toEqual(['1.68 km', '1.62 km', '2.5 m', '5.0 m', '0.3 m']);
  });

  test('an axis has feet while it is short and miles beyond', () => {
    const labels = (toM: number, units: 'metric' | 'imperial') =>
      distanceAxis([0, toM], units, { leftPx: 0, rightPx: 440 }).ticks.map(({ label }) =>
        label.replace('\u202f', ' '),
      );
    expect(labels(300, 'imperial')).toEqual(['0 ft', '500 ft']);
    expect(labels(3 * metresPerMile, 'imperial').at(-1)).toBe('3 mi');
    expect(labels(300, 'metric').every((label) => label.endsWith(' m'))).toBe(true);
    expect(labels(3000, 'metric').every((label) => label.endsWith(' km'))).toBe(true);
    expect(labels(0, 'metric')).toEqual([]);
  });
});

describe('axes', () => {
  test('ticks are one, two or five times a power of ten, and hours and minutes', () => {
    expect(roundTicks(0, 10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
    expect(roundTicks(0.3, 2.2, 4)).toEqual([0.5, 1, 1.5, 2]);
    expect(roundTicks(0, 0, 5)).toEqual([]);
    expect(roundTicks(0, 5, 0)).toEqual([]);
    expect(timeTicks(0, 3600, 4)).toEqual([0, 900, 1800, 2700, 3600]);
    expect(timeTicks(0, 86_400 * 30, 10)).toHaveLength(31);
  });

  test('a scale without width has its middle', () => {
    expect(linearScale([5, 5], [0, 100]).toPx(5)).toBe(50);
    expect(linearScale([5, 9], [40, 40]).fromPx(40)).toBe(5);
    expect(linearScale([0, 10], [0, 100]).fromPx(25)).toBe(2.5);
  });

  test('times are those of the clock where the day has a start, else used up', () => {
    const plan = segmentsWith(() => ({ arrive: null, leave: null }));
    const place = { leftPx: 0, rightPx: 440 };
    const used = timeAxis(plan, [0, 1900], place);
    expect(used.ticks[0]!.label).toMatch(/^0/);
    // Nothing is computed beyond 1530 m: what is asked for ends there.
    expect(used.shown[1]).toBeLessThanOrEqual(1530);
    expect(used.x.toPx(1900)).toBeCloseTo(440, 6);
    expect(used.x.fromPx(0)).toBeCloseTo(0, 6);
    const first = madeUpPlan().segments[0]!;
    const inUtc = {
      ...plan,
      segments: [{ ...first, arrive: '2027-05-14T06:30:00Z' }, ...plan.segments.slice(1)],
    };
    expect(timeAxis(inUtc, [0, 1900], place).ticks[0]!.label).toMatch(/0?6:30/);
    expect(timeAxis({ ...plan, segments: [] }, [0, 1900], place).shown).toEqual([0, 0]);
  });
});

describe('a day of which little is known', () => {
  test('without a start there are no clock times', () => {
    const plan = segmentsWith(() => ({ arrive: null, leave: null }));
    const project = projectWith({ schedule: { ...madeUpProject.schedule, start: null, backBy: null } });
    const words = wordsOf({ plan, project });
    expect(words).toContain('No start time was given: no clock times.');
    expect(words).not.toContain('times: Atlantic');
  });

  test('without a latest return that is not said', () => {
    const project = projectWith({ schedule: { ...madeUpProject.schedule, backBy: null } });
    expect(wordsOf({ project })).toMatch(/Back by ?not said/);
  });

  test('without ground nothing of it is made up', () => {
    const plan = madeUpPlan();
    const blind = {
      ...plan,
      stations: plan.stations.map((station) => ({
        ...station,
        ...{ elevationM: null, slopeDeg: null, designSlopeDeg: null, slopeSigmaDeg: null, aspectDeg: null },
      })),
      segments: plan.segments.map((segment) => ({
        ...segment,
        ...{
          slopeMeanDeg: null,
          slopeMaxDeg: null,
          aspectDeg: null,
          ascentM: null,
          descentM: null,
          runOut: null,
        },
      })),
    };
    const words = wordsOf({ plan: blind, terrain: [] }, { withOverleaf: true });
    expect(words).toContain('none opened: no ground data');
    expect(words).toContain('no ground data');
    expect(words).toContain('unknown');
    expect(wordsOf({ plan: blind, terrain: [] }, { paper: 'a6' })).toContain('run-out unknown');
  });

  test('a slope that is known above a run-out that is not', () => {
    const plan = segmentsWith(() => ({ runOut: null }));
    expect(wordsOf({ plan }, { paper: 'a6' })).toMatch(/\d+° [NESW]+, run-out unknown/);
  });

  test('a raster that no station lies on has no slope error, and cells that hide nothing add nothing', () => {
    const plan = madeUpPlan();
    const stations = plan.stations.map((station) => ({ ...station, designSlopeDeg: station.slopeDeg }));
    const terrain = madeUpProfile(plan).terrain;
    const words = wordsOf({ plan: { ...plan, stations }, terrain: [...terrain, ...terrain] });
    expect(words).toContain('slopes ±1.4°, EPSG');
    expect(words).toContain('slopes ±unknown');
    expect(words).not.toContain('steps that cells hide');
  });

  test('a plan without stations or time has its words all the same', () => {
    const plan = madeUpPlan();
    const parts = Object.fromEntries(Object.keys(plan.totals.parts).map((key) => [key, 0]));
    const bare = {
      ...plan,
      stations: [],
      totals: { ...plan.totals, parts: parts as unknown as typeof plan.totals.parts },
    };
    const words = wordsOf({ plan: bare }, { withOverleaf: true });
    expect(words).toContain('Magnetic declination not computed');
    expect(words).toContain('On the way: none.');
    expect(wordsOf({ plan: bare }, { paper: 'a6' })).not.toContain('Crossings');
  });

  test('what was not said of a crossing is named, one by one', () => {
    const [mark] = madeUpProject.marks;
    const bare = projectWith({ marks: [{ ...mark!, widthM: null, bridge: null, seenOn: null, note: '' }] });
    expect(wordsOf({ project: bare })).toContain('width not said, bridge not described, date not said');
    const far = projectWith({ marks: [{ ...mark!, positions: [positionAlong(90_000)] }] });
    expect(wordsOf({ project: far }, { paper: 'a6' })).toContain('belayed crossing');
  });

  test('no matrix, no notes, no date of making, no gathering: the pocket sheet too', () => {
    const plan = segmentsWith(() => ({ gatherings: [], pieces: [] }));
    const words = wordsOf({ plan, matrix: null, madeAt: undefined } as unknown as Partial<SheetInput>, {
      paper: 'a6',
    });
    expect(words).not.toContain('made 2027');
    expect(words).toContain('Planning aid only');
    expect(
      wordsOf({ project: projectWith({ notes: 'Hut key under the stone.' }) }, { paper: 'a6' }),
    ).toContain('Hut key under the stone.');
    expect(wordsOf({ project: projectWith({ notes: 'Hut key under the stone.' }) })).toContain('Notes');
  });

  test('findings: none, only small ones, heavy ones with and without a place', () => {
    expect(wordsOf({ plan: planWith({ warnings: [] }) })).toContain('No finding in these data.');
    const small = madeUpPlan().warnings.filter(({ weight }) => weight === 1);
    expect(wordsOf({ plan: planWith({ warnings: small }) })).toContain('Only smaller findings.');
    const heavy = madeUpPlan().warnings.map((warning) => ({ ...warning, fromM: null, toM: null }));
    expect(wordsOf({ plan: planWith({ warnings: heavy }) }, { withOverleaf: true })).toContain(
      'No technique holds between 1.62 and 1.68 km.',
    );
    const here = madeUpPlan().warnings.map((warning) => ({ ...warning, fromM: 1620, toM: null }));
    expect(wordsOf({ plan: planWith({ warnings: here }) })).toMatch(/\(1\.62[^)]*km\)/);
  });

  test('a line of one point has no map', () => {
    const plan = madeUpPlan();
    const words = wordsOf({ plan: { ...plan, stations: plan.stations.slice(0, 1) } });
    expect(words).toContain('No map: the line has fewer than two points.');
    expect(wordsOf({ plan: { ...plan, stations: plan.stations.slice(0, 1) } }, { paper: 'a6' })).toContain(
      'Planning aid only',
    );
  });
});

describe('places', () => {
  const moved = (move: (at: readonly [number, number]) => readonly [number, number]): Plan => {
    const plan = madeUpPlan();
    return {
      ...plan,
      stations: plan.stations.map((station) => ({ ...station, position: move(station.position) })),
      segments: plan.segments.map((segment) => ({
        ...segment,
        gatherings: segment.gatherings.map((each) => ({ ...each, position: move(each.position) })),
      })),
    };
  };

  test('beyond the grid of UTM there are degrees, and no grid on the map', () => {
    const words = wordsOf({ plan: moved(([lng, lat]) => [lng, lat + 36]) }, { withOverleaf: true });
    expect(words).toContain('87.');
    expect(words).not.toMatch(/UTM \d/);
  });

  test('a line over two squares names the square in every row', () => {
    // The square's border: easting 500 000 m of zone 26 is 27 degrees west.
    const words = wordsOf({ plan: moved(([lng, lat]) => [lng + 0.4045, lat]) });
    expect(words).toMatch(/26U[A-Z]{2} \d{4} \d{4}/);
  });

  test('gathering places in two squares are each told with their square; so are ways in two', () => {
    const plan = madeUpPlan();
    const far = ([lng, lat]: readonly [number, number]) => [lng, lat + 1] as const;
    const first = plan.segments.find(({ gatherings }) => gatherings.length > 0);
    const segments = plan.segments.map((segment) =>
      segment === first
        ? {
            ...segment,
            gatherings: segment.gatherings.map((each) => ({ ...each, position: far(each.position) })),
          }
        : segment,
    );
    const places = wordsOf({ plan: { ...plan, segments } }, { withOverleaf: true });
    expect(new Set(places.match(/\b\d{2}U[A-Z]{2} (?=\d{5} \d{5})/g)).size).toBe(2);
    const wayBack = moved(far);
    const table = wordsOf({ plan: { ...plan, wayBack }, wayBackMatrix: null });
    expect(table).toMatch(/Grid Length/);
  });

  test('a way back by a line of one point has neither map nor place', () => {
    const plan = madeUpPlan();
    const wayBack = { ...plan, stations: plan.stations.slice(0, 1), segments: [] };
    expect(wordsOf({ plan: { ...plan, wayBack }, wayBackMatrix: null })).toContain('Back:');
  });
});

test('what the team carries and how it goes is on the sheet as it is set', () => {
  const party = {
    ...madeUpProject.party,
    rope: { ...madeUpProject.party.rope, brakeKnots: true, lowStretch: true },
  };
  const words = wordsOf({
    project: projectWith({
      party,
      ownPace: {
        walkingFactor: 1.1,
        placementFactor: 1,
        walkingByGrade: [{ fromDeg: 10, toDeg: 20, factor: 1.2 }],
      },
      assumptions: { 'rope.carabinerRatio': 0.55, 'nobody.knows': 3, 'rule.ropedAlwaysBelowDeg': 20 },
    }),
  });
  expect(words).toContain('brake knots');
  expect(words).toContain('low-stretch cord: no lead falls');
  expect(words).toContain('nobody.knows: 3');
  expect(words).toMatch(/Roped travel always stands below: 20 ° \(default \d+ °\)/);
  expect(words).toContain('own pace ×1.10');
});

test('pieces of several kinds are told apart', () => {
  const plan = segmentsWith(({ pieces }) => ({
    pieces: pieces.map((piece, i) => ({
      ...piece,
      placement: i % 2 === 0 ? ('upright' as const) : ('t-slot' as const),
    })),
  }));
  expect(wordsOf({ plan })).toContain('upright or buried T-slot');
  const flat = segmentsWith(() => ({ ascentM: 0, descentM: 0 }));
  expect(wordsOf({ plan: flat })).toMatch(/ 620 0 14° SW gentle RT /);
});

describe('there and back', () => {
  const day = (): Plan => ({ ...madeUpPlan(), wayBack: madeUpPlan() });

  test('each way has its table, its hours and its modes in other snow, the pocket sheet too', () => {
    const plan = day();
    const wayBackMatrix = madeUpMatrix(plan);
    const words = wordsOf({ plan, wayBackMatrix }, { withOverleaf: true });
    expect(words).toContain('There:');
    expect(words).toContain('Back:');
    expect(words).toContain('Whiteout: Back');
    const pocket = wordsOf({ plan, wayBackMatrix }, { paper: 'a6' });
    expect(pocket).toContain('Other snow: There');
    expect(pocket).toContain('Other snow: Back');
    expect(wordsOf({ plan, wayBackMatrix: null })).toMatch(/Back:.* 18–33( n\/c){6} 2 /);
  });

  test('by the same line the one map is for both', () => {
    const project = projectWith({ schedule: { ...madeUpProject.schedule, wayBack: 'same-line' } });
    const html = sheetHtml(makeSheet({ plan: day(), project, terrain: [], matrix: null }));
    expect(html.match(/aria-label="Map and ribbon/g)).toHaveLength(1);
  });

  test('by another line it has a map of its own', () => {
    const wayBack = { alternativeId: 'other' };
    const project = projectWith({ schedule: { ...madeUpProject.schedule, wayBack } });
    const html = sheetHtml(
      makeSheet({ plan: day(), project, terrain: [], matrix: null, madeAt: '2027-05-13T18:40:00-02:00' }),
    );
    expect(html.match(/aria-label="Map and ribbon/g)).toHaveLength(2);
  });

  test('when to turn round', () => {
    const totals = { ...madeUpPlan().totals, turnRound: '2027-05-14T10:15:00-02:00' };
    expect(wordsOf({ plan: planWith({ totals }) })).toContain('Turn round by 10:15.');
    const warning = { code: 'no-turn-round', weight: 3, text: 'No time.', fromM: null, toM: null } as const;
    const words = wordsOf({ plan: planWith({ warnings: [warning] }) });
    expect(words).toContain('Turn round by no time for it');
    expect(words).toContain('No time to turn round: the way back alone takes too long.');
  });
});

describe('the map', () => {
  test('a mark drawn as a line is drawn as one; a note and what lies beyond the map are not', () => {
    const marked = (positions: readonly (readonly [number, number])[], kind: string) => {
      const mark = { ...madeUpProject.marks[0]!, kind, positions } as never;
      const plan = madeUpPlan();
      return sheetHtml(
        makeSheet({ plan, project: projectWith({ marks: [mark] }), terrain: [], matrix: null }),
      ).includes('stroke-dasharray="2 2"');
    };
    expect(marked([positionAlong(600), positionAlong(660)], 'crevasse-crossing')).toBe(true);
    expect(marked([positionAlong(600), positionAlong(660)], 'note')).toBe(false);
    expect(
      marked(
        [
          [-17, 51.2],
          [-16.9, 51.2],
        ],
        'ice',
      ),
    ).toBe(false);
  });

  test('a line of a few metres and one of a thousand kilometres have a bar and a grid that fit', () => {
    const scaled = (factor: number): Plan => {
      const plan = madeUpPlan();
      return {
        ...plan,
        stations: plan.stations.map((station) => ({
          ...station,
          position: [-27.41, 51.2 + (station.position[1] - 51.2) * factor] as const,
        })),
      };
    };
    expect(wordsOf({ plan: scaled(0.001) })).toContain('10 m');
    expect(wordsOf({ plan: scaled(2000) })).toMatch(/ end 50\.0 km N UTM/);
  });

  test('across a zone’s border there is no grid, in the south neither', () => {
    const plan = madeUpPlan();
    const across = (north: number): Plan => ({
      ...plan,
      stations: plan.stations.map((station, i) => ({
        ...station,
        position: [-24 + (i - 190) / 10_000, north + station.position[1] - 51.2] as const,
      })),
    });
    expect(wordsOf({ plan: across(51) })).not.toMatch(/UTM \d/);
    expect(wordsOf({ plan: across(-70) })).not.toMatch(/UTM \d/);
  });

  test('segments without a station of their own have neither stroke nor number', () => {
    const plan = madeUpPlan();
    expect(wordsOf({ plan: { ...plan, stations: plan.stations.slice(0, 100) } })).toContain('Cautions');
  });
});

describe('rows', () => {
  test('a few seconds are not nothing, and a range that says nothing new is left out', () => {
    const lasting = (lowS: number, defaultS: number, highS: number) =>
      wordsOf({ plan: segmentsWith(() => ({ time: { lowS, defaultS, highS } })) });
    expect(lasting(4, 6, 11)).toMatch(/ RT 04:30 &lt;1 RT /);
    expect(lasting(4, 40, 130)).toMatch(/ RT 04:30 1 &lt;1–2 RT /);
    expect(lasting(0, 0, 0)).toMatch(/ RT 04:30 0 RT /);
  });

  test('snow of a stretch’s own, and modes that the matrix does not hold', () => {
    const plan = segmentsWith(() => ({ snow: { hardness: 'K', wetness: 'W' } }));
    expect(wordsOf({ plan })).toContain('snow: knife');
    const { columns } = madeUpMatrix(madeUpPlan());
    const bare = { columns: columns.map((column) => ({ ...column, cells: [] })) };
    expect(wordsOf({ matrix: bare })).toMatch(/ 18–33( n\/c){6} 2 /);
    const whole = columns.map((column) => ({
      ...column,
      totals: { ...column.totals, notComputedBeyondM: null },
    }));
    expect(wordsOf({ matrix: { columns: whole } })).not.toContain('F ≥');
  });

  test('up and down on one segment, and stances', () => {
    const both = segmentsWith(() => ({ ascentM: 20, descentM: 8 }));
    expect(wordsOf({ plan: both })).toContain('+20 −8');
    const gathering = madeUpPlan().segments.flatMap(({ gatherings }) => gatherings)[0]!;
    const stances = segmentsWith(({ mode }) => ({
      gatherings: mode === 'pitched-belay' ? [gathering, gathering] : [],
    }));
    expect(wordsOf({ plan: stances })).toContain('2 stances');
    expect(wordsOf({ plan: stances }, { paper: 'a6' })).toContain('stance');
  });

  test('one piece has no spacing', () => {
    const [piece] = madeUpPlan().segments.flatMap(({ pieces }) => pieces);
    const plan = segmentsWith(() => ({ pieces: [piece!] }));
    expect(wordsOf({ plan })).toContain('1 piece');
    expect(wordsOf({ plan }, { paper: 'a6' })).toContain('1 piece');
  });

  test('nobody clips past a piece where there is none', () => {
    const plan = segmentsWith(({ mode }) => (mode === 'running-belay' ? { mode: 'roped' } : {}));
    expect(wordsOf({ plan })).not.toContain('No knots between climbers');
  });

  test('a whole day that can be computed has a whole time, and what is not there is none', () => {
    const { totals } = madeUpPlan();
    const none = { notComputedBeyondM: null, pieces: 0, pickets: 0, gatherings: 0, rotations: 0, pitches: 0 };
    const plan = planWith({ totals: { ...totals, ...none, crossings: 0, captureDevices: 0 } });
    expect(wordsOf({ plan, matrix: null })).not.toContain('at least');
  });
});

describe('small things', () => {
  test('the name of the line is not said twice; a small finding says its place', () => {
    const project = projectWith({ line: { ...madeUpProject.line, name: madeUpProject.name } });
    expect(wordsOf({ project })).not.toContain('South spur · times');
    const warnings = madeUpPlan().warnings.map((each) => ({
      ...each,
      weight: 1 as const,
      fromM: 0,
      toM: 50,
    }));
    expect(wordsOf({ plan: planWith({ warnings }) }, { withOverleaf: true })).toContain('(0–50 m)');
    expect(wordsOf({ plan: planWith({ warnings: [] }) }, { withOverleaf: true })).not.toContain(
      'Smaller findings',
    );
  });

  test('without a date there is no magnetic bearing to go by', () => {
    const project = projectWith({ schedule: { ...madeUpProject.schedule, start: null } });
    const undated = { project, madeAt: undefined } as unknown as Partial<SheetInput>;
    expect(wordsOf(undated, { withOverleaf: true })).toContain('Bearings are from true north.');
    expect(declinationFor([-27, 51], null, 4)!.text).toBe('Magnetic declination 4.0° east, as entered.');
    expect(declinationFor([-27, 51], '2040-01-01', null)!.isUsable).toBe(false);
  });

  test('how old data are', () => {
    expect(ageText('2023-08', '2024-01-01')).toBe('surveyed 2023-08, 1 year before the day');
    expect(ageText('2023', '2027-01-01')).toBe('surveyed 2023, 4 years before the day');
    expect(ageText('2023', '2023-09-01')).toBe('surveyed 2023');
    expect(ageText('long ago', '2023-09-01')).toBe('surveyed long ago');
    expect(ageText(null, '2023-09-01')).toBe('date of survey unknown');
  });

  test('where heights are counted from, and cells of any size', () => {
    const [raster] = madeUpProfile(madeUpPlan()).terrain;
    const said = (changes: object) => wordsOf({ terrain: [{ ...raster!, ...changes }] });
    expect(said({ heightsFrom: null })).toContain('(from sea level or the ellipsoid: not said)');
    expect(said({ heightsFrom: 'ellipsoid' })).toContain('from the ellipsoid');
    expect(said({ cellM: 30 })).toContain('cells 30 m');
    expect(wordsOf({ project: projectWith({ assumptions: {} }) })).toContain('Other figures: defaults.');
  });

  test('a line of many turns is told in two dozen legs', () => {
    const zigzag = madeUpPlan().stations.map((station, i) => ({
      ...station,
      elevationM: 2000 - i,
      position: [-27.41 + (i % 2) * 0.0004, 51.2 + i / 20_000] as const,
    }));
    const { legs } = whiteout({ stations: zigzag }, null, 'metric');
    expect(legs.length).toBeLessThanOrEqual(24);
    expect(legs[0]!.magneticBearing).toBeNull();
    expect(legs[0]!.height.startsWith('−')).toBe(true);
  });

  test('a lane of shares runs to a hundred; one of slopes that are not known has its usual height', () => {
    const at = linearScale([0, 100], [0, 400]);
    const course = (...values: readonly number[]) => ({
      alongM: Float64Array.of(0, 50, 100),
      value: Float64Array.from(values),
    });
    const unknown = course(NaN, NaN, NaN);
    const columns: ProfileColumns = {
      ...{ elevationM: unknown, slopeDeg: unknown, slopeLowDeg: unknown, slopeHighDeg: unknown },
      ...{ unheldPct: course(0, 20, 40), tolerancePct: course(1, 1, 1) },
    };
    const extent = { topPx: 0, basePx: 100 };
    const lane = drawLowerLane('unheld', columns, [0, 100], at, extent);
    expect([lane.top, lane.ticks, lane.band, lane.guides]).toEqual([100, [0, 50, 100], '', []]);
    expect(lane.line).toMatch(/^M ?0[ ,]100/);
    expect(drawLowerLane('slope', columns, [0, 100], at, extent).top).toBe(45);
  });

  test('a band needs both of its edges', () => {
    const run = [
      [0, 1],
      [5, 2],
    ] as const;
    expect(bandPath([run, run], [run])).toBe(bandPath([run], [run]));
  });

  test('the axis of times goes no farther than what is computed', () => {
    const axis = timeAxis(madeUpPlan(), [0, 1900], { leftPx: 0, rightPx: 440 });
    expect(axis.x.fromPx(9999)).toBe(axis.shown[1]);
  });
});
