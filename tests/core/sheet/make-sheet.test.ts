import { timePartNames } from '../../../src/core/wording/time-parts';
import { describe, expect, test } from 'vitest';
import { makeSheet, type SheetInput } from '../../../src/core/sheet/make-sheet';
import { sheetHtml } from '../../../src/core/sheet/sheet-html';
import { madeUpMatrix } from '../../app/fixture/made-up-matrix';
import { madeUpPlan, madeUpProfile, madeUpProject } from '../../app/fixture/made-up-plan';

const plan = madeUpPlan();
const input: SheetInput = {
  plan,
  project: madeUpProject,
  terrain: madeUpProfile(plan).terrain,
  matrix: madeUpMatrix(plan),
  madeAt: '2027-05-13T18:40:00-02:00',
};
const html = sheetHtml(makeSheet(input));

/** The words of a page, without its tags. */
const wordsOf = (page: string) =>
  page
    .replace(/<style>[\s\S]*?<\/style>/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('\u202f', ' ')
    .replaceAll(/\s+/g, ' ');
const words = wordsOf(html);

describe('every caution is on the sheet', () => {
  test.each([
    ['a planning aid', 'Planning aid only: no rescue or avalanche judgement'],
    ['no word on bridges', 'no snow bridge is said to hold'],
    ['data name, cell, year and slope error', 'farthest_skerry_5m.tif cells 5.0 m, surveyed 2023'],
    ['how wrong slopes can be', 'slopes ±1.4° (for modes up to +1.0°: steps that cells hide)'],
    ['the snow is a guess, and when it was made', "user's guess, as it stood on 2027-05-13, for 2027-05-14"],
    ['strength is an estimate', 'What a piece holds is an estimate:'],
    ['check by hand', 'check each by hand'],
    ['the run-out knows no people', 'The run-out model ignores people and bounce.'],
    ['no knots where pieces are passed', 'No knots between climbers where pieces are clipped past'],
    ['never unclip', 'Never unclip from the rope to help (NIOSH 98AK016).'],
    ['turn-round', 'Turn-round time: not computed. Set your own'],
    ['local zone and UTC', 'times: Atlantic/South_Georgia and UTC'],
    ['each time in both', 'Start 04:30 06:30 UTC'],
    ['assumptions', 'Changed from the defaults: Tension behind a carabiner'],
    ['not the probability of an accident', 'they are not the probability of an accident.'],
    ['crevasse falls', 'Crevasse falls are not in them.'],
  ])('%s', (_, text) => {
    expect(words).toContain(text);
  });

  test('the short form is on every page, with title and page n of m', () => {
    const rules = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? '';
    expect(rules).toContain('@bottom-left');
    expect(rules).toContain('"page " counter(page) "\\A of " counter(pages)');
    expect(rules).toMatch(/@top-left \{ content: "Farthest/);
  });

  test('the device limit where devices are used, and only there', () => {
    const first = plan.segments[3];
    if (!first) throw new Error('nine segments');
    const withDevices = { ...plan, segments: [{ ...first, variant: 'running-capture' as const }] };
    expect(wordsOf(sheetHtml(makeSheet({ ...input, plan: withDevices })))).toContain(
      'Capture devices: 4.0 kN at most',
    );
    expect(words).not.toContain('Capture devices: 4.0 kN at most');
  });
});

test('distress signals and room for numbers', () => {
  expect(words).toContain('six signals a minute');
  expect(words).toContain('answer: three');
  expect(words).toContain('V need help');
  expect(words).toContain('fill in and check');
});

test('every gathering place stands in decimal degrees and on the grid', () => {
  const gatherings = plan.segments.flatMap((segment) => segment.gatherings);
  expect(gatherings.length).toBeGreaterThan(0);
  for (const { position } of gatherings) {
    expect(words).toContain(`${position[1].toFixed(5)}, ${position[0].toFixed(5)}`);
  }
  expect(
    makeSheet(input).ways[0]?.places.every((place) => /^26U[A-Z]{2} \d{5} \d{5}$/.test(place.mgrs)),
  ).toBe(true);
});

test('true and magnetic bearings differ by the declination', () => {
  const [leg] = makeSheet(input).ways[0]?.whiteout.legs ?? [];
  expect(leg?.trueBearing).toBe('038°');
  // 9.1 degrees west: the compass shows more.
  expect(leg?.magneticBearing).toBe('048°');
});

test('a declination of the guide’s own goes before the model’s, which stands beside it', () => {
  const schedule = { ...madeUpProject.schedule, declinationDeg: -12.5 };
  const sheet = makeSheet({ ...input, project: { ...madeUpProject, schedule } });
  expect(sheet.ways[0]?.whiteout.legs[0]?.magneticBearing).toBe('051°');
  expect(sheet.declination).toBe('Magnetic declination 12.5° west, as entered (the model: 9.1° west).');
});

test('the way back has its own rows, bearings, places and modes under other snow', () => {
  const sheet = makeSheet({
    ...input,
    plan: { ...plan, wayBack: plan },
    wayBackMatrix: madeUpMatrix(plan),
  });
  expect(sheet.ways.map(({ title }) => title)).toEqual(['There', 'Back']);
  const [there, back] = sheet.ways;
  expect(back?.places).toEqual(there?.places);
  expect(back?.matrix).toEqual(there?.matrix);
  expect(makeSheet({ ...input, plan: { ...plan, wayBack: plan } }).ways[1]?.matrix).toBeNull();
  expect(sheet.clock.map(({ label }) => label)).toContain('Back at');
});

test('E20 every page says of which state of the project it is, and what the letters mean', () => {
  const sheet = makeSheet(input);
  expect(sheet.state).toMatch(/^[0-9A-F]{8}$/);
  const renamed = makeSheet({ ...input, project: { ...madeUpProject, notes: 'changed' } });
  expect(renamed.state).not.toBe(sheet.state);
  const rules = /@page \{[\s\S]*?\n\}/.exec(html)?.[0] ?? '';
  expect(
    rules.replaceAll(/\\([0-9a-f]+) /g, (_, code: string) => String.fromCodePoint(parseInt(code, 16))),
  ).toMatch(new RegExp(`2027-05-13 18:40 · ${sheet.state}`));
  expect(rules).toContain('RT');
  expect(rules).toContain('"page " counter(page) "\\A of " counter(pages)');
});

test('E26 the day’s times stand in local time and in UTC, with room for what is not known', () => {
  expect(makeSheet(input).clock).toEqual([
    { label: 'Start', time: '04:30', more: '06:30\u202fUTC' },
    { label: 'Arrival', time: null, more: 'not computed' },
    { label: 'Turn round by', time: null, more: 'not computed' },
    { label: 'Back by', time: '15:00', more: '17:00\u202fUTC' },
  ]);
});

test('the way back on the same line says its own places, and not again what the way there says', () => {
  const schedule = { ...madeUpProject.schedule, wayBack: 'same-line' as const };
  const sheet = makeSheet({
    ...input,
    plan: { ...plan, wayBack: plan },
    project: { ...madeUpProject, schedule },
  });
  const [there, back] = sheet.ways;
  expect(there?.drawn).not.toBeNull();
  expect(back?.drawn).toBeNull();
  expect(there?.rows[1]?.seen).toContain('bridge looked doubtful');
  expect(back?.rows[1]?.seen).toBe('');
  const gatherings = plan.segments.flatMap((segment) => segment.gatherings);
  expect(sheet.places.map(({ name }) => name)).toEqual(['gather 4, back 4', 'gather 5, back 5']);
  expect(sheet.places).toHaveLength(gatherings.length);
});

test('bearings, hours and room to write for every segment come overleaf, where they are asked for', () => {
  expect(words).not.toContain('Whiteout');
  expect(words).not.toContain('Snow found');
  const more = wordsOf(sheetHtml(makeSheet(input), { withOverleaf: true }));
  expect(more).toContain('Whiteout: On the way');
  expect(more).toContain('The snow class is the same for the whole line.');
  const made = makeSheet(input);
  const html = sheetHtml(made, { withOverleaf: true });
  const room = html.slice(html.indexOf('class="room"'));
  expect(room.match(/<tr>/g)).toHaveLength(1 + made.ways.flatMap(({ rows }) => rows).length);
  // What the hours go to sums to the time of the plan.
  const spentS = timePartNames.reduce((sum, [, key]) => sum + plan.totals.parts[key], 0);
  expect(spentS).toBeCloseTo(plan.totals.time.defaultS, 6);
  expect(made.ways[0]?.hours.map(({ label }) => label)).toEqual(
    timePartNames.filter(([, key]) => plan.totals.parts[key] > 0).map(([label]) => label),
  );
});

test('without a date bearings stay true', () => {
  const { madeAt: _, ...undated } = input;
  const schedule = { ...madeUpProject.schedule, start: null };
  const sheet = makeSheet({ ...undated, project: { ...madeUpProject, schedule } });
  expect(sheet.ways[0]?.whiteout.legs[0]?.magneticBearing).toBeNull();
  expect(sheet.declination).toContain('not computed');
});

test('a sheet without a matrix says so', () => {
  expect(wordsOf(sheetHtml(makeSheet({ ...input, matrix: null })))).toContain(
    'holds for the planned snow only',
  );
});

test('names with markup show as text', () => {
  const name = '<img src=x onerror=alert(1)>"\'</style><script>';
  const page = sheetHtml(makeSheet({ ...input, project: { ...madeUpProject, name, notes: name } }));
  expect(page).not.toMatch(/<script|<img src=x|<\/style><script/i);
  expect(page.match(/<\/style>/g)).toHaveLength(1);
  expect(wordsOf(page)).toContain('<img src=x onerror=alert(1)>');
});

test('nothing is loaded from anywhere, and a picture that is none is left out', () => {
  expect(html).not.toMatch(/(?:src|href)="(?!data:)/);
  expect(html).not.toMatch(/url\((?!#|data:font\/woff2;base64,)/);
  const sheet = makeSheet(input);
  expect(sheetHtml(sheet, { mapPicture: 'https://tiles.invalid/a.png' })).not.toContain('tiles.invalid');
  expect(sheetHtml(sheet, { mapPicture: 'data:image/svg+xml;base64,AAAA' })).not.toContain('svg+xml');
  expect(sheetHtml(sheet, { mapPicture: 'data:image/png;base64,AAAA' })).toContain(
    'data:image/png;base64,AAAA',
  );
});

test('unknown stays unknown, and what was not computed says so', () => {
  const row = makeSheet(input).ways[0]?.rows[6];
  expect(row?.rise).toBe('unknown');
  expect(row?.slope).toBe('slope and run-out unknown');
  expect(row?.time).toBe('not computed');
  expect(makeSheet(input).ways[0]?.summary[0]).toMatch(/^at least .*not computed beyond 1\.53/);
});

test('no print is smaller than ten points', () => {
  const rules = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? '';
  const points = [...rules.matchAll(/([\d.]+)pt/g)].map((found) => Number(found[1]));
  const pixels = [...html.matchAll(/font-size="([\d.]+)"/g)].map((found) => Number(found[1]));
  expect(points.length).toBeGreaterThan(3);
  expect(pixels.length).toBeGreaterThan(1);
  expect(Math.min(...points)).toBeGreaterThanOrEqual(10);
  // 96 CSS pixels are 72 points; drawings are as wide as the paper or smaller than it, never shrunk.
  expect(Math.min(...pixels) * 0.75).toBeGreaterThanOrEqual(10);
});
