import { describe, expect, test } from 'vitest';
import { defaultParty } from '../../../src/core/domain/rope-team';
import type { Problem } from '../../../src/core/domain/problem';
import type { Project } from '../../../src/core/domain/project';
import { projectJsonSchema } from '../../../src/core/files/project-json-schema';
import { defaultProject, readProject, writeProject } from '../../../src/core/files/project';

const head = { format: 'firnward-project', version: 1 };

function opened(value: object): Project {
  const result = readProject(JSON.stringify({ ...head, ...value }), 'a.firnward.json');
  if (!result.ok) throw new Error(`${result.problem.place}: ${result.problem.title}`);
  return result.value.project;
}

function refused(value: object | string): Problem {
  const text = typeof value === 'string' ? value : JSON.stringify({ ...head, ...value });
  const result = readProject(text, 'a.firnward.json');
  if (result.ok) throw new Error('it was accepted');
  return result.problem;
}

describe('what a file may leave out', () => {
  test('only format and version are required', () => {
    const project = opened({});
    expect(project.party).toEqual(defaultParty);
    expect(project.line.points).toEqual([]);
    expect(project.snow).toEqual({ hardness: 'P', wetness: 'D' });
    expect(project.tolerance).toEqual({ gentlePct: 100, injuringPct: 40, deadlyPct: 15 });
    expect(project).toEqual(defaultProject());
  });

  test('the first on the rope leads if nobody is said to, and only the first', () => {
    const { climbers } = opened({ party: { climbers: [{ name: 'A' }, { name: 'B' }] } }).party;
    expect(climbers.map((each) => each.mayLead)).toEqual([true, false]);
    expect(opened({ party: { climbers: [{ mayLead: false }] } }).party.climbers[0]?.mayLead).toBe(false);
  });

  test('a line may be bare positions, a snow a bare hardness', () => {
    const project = opened({
      line: [
        [-20, 40],
        [-20, 40.1, 1200],
      ],
      snow: 'K',
    });
    expect(project.line.points[1]).toEqual({ position: [-20, 40.1], elevationM: 1200, timeMs: null });
    expect(project.line.id).not.toBe('');
    expect(project.snow).toEqual({ hardness: 'K', wetness: 'D' });
  });
});

test('written and read again it is the same, to the byte, with unknown keys on every level', () => {
  const project = opened({
    other: { deep: [1, { x: 'y' }] },
    line: { name: 'n', points: [{ position: [-20.123456789, 40], odd: 1 }, [-20, 40.1]], colour: 'red' },
    marks: [{ kind: 'ice', positions: [[-20, 40]], mine: true }],
    party: { climbers: [{ massKg: 70.5, boots: 43 }], rope: { brand: 'none' }, dog: 'yes' },
    schedule: { start: '2026-05-14T04:30', zone: 'Atlantic/Azores', sunrise: 6 },
    assumptions: { 'rule.noneAboveDeg': 55 },
  });
  const text = writeProject(project);
  for (const key of ['other', 'odd', 'colour', 'mine', 'boots', 'brand', 'dog', 'sunrise'])
    expect(text).toContain(`"${key}":`);
  const again = readProject(text, 'a.firnward.json');
  expect(again.ok && again.value.project).toEqual(project);
  expect(again.ok && writeProject(again.value.project)).toBe(text);
});

describe('what is refused', () => {
  test.each<[string, string, string]>([
    ['', 'PRJ-001', 'line 1, column 1'],
    ['{"format": "firnward-project",\n "ver', 'PRJ-001', 'line 2, column 6'],
    ['{} {}', 'PRJ-001', 'line 1, column 4'],
    ['{"type": "FeatureCollection"}', 'PRJ-002', '/format'],
    ['[1]', 'PRJ-002', '/format'],
    ['{"format": "firnward-project", "version": 2}', 'PRJ-003', '/version'],
    ['{"format": "firnward-project", "version": "1"}', 'PRJ-006', '/version'],
    ['{"format": "firnward-project", "version": 1, "version": 1}', 'PRJ-009', 'line 1, column 46'],
    ['{"format": "firnward-project", "version": 1, "x": 1e999}', 'PRJ-007', 'line 1, column 51'],
    [
      '{"format": "firnward-project", "version": 1, "x": 12345678901234567890}',
      'PRJ-007',
      'line 1, column 51',
    ],
    ['{"format": "firnward-project", "version": 1, "x": {"__proto__": 1}}', 'PRJ-008', 'line 1, column 52'],
    [
      '{"format": "firnward-project", "version": 1, "x": {"\\u0063onstructor": 1}}',
      'PRJ-008',
      'line 1, column 52',
    ],
    [
      `{"format": "firnward-project", "version": 1, "x": ${'['.repeat(100_000)}`,
      'PRJ-010',
      'line 1, column 83',
    ],
  ])('$1 at $2', (text, code, place) => {
    expect(refused(text)).toMatchObject({ code, place, subject: 'a.firnward.json' });
  });

  test.each<[string, object]>([
    ['/line/points/0/position/1', { line: { points: [{ position: [0, 91] }] } }],
    ['/line/points/0/position', { line: { points: [{ position: [0] }] } }],
    ['/party/climbers/1/massKg', { party: { climbers: [{}, { massKg: '12' }] } }],
    ['/party/climbers', { party: { climbers: [] } }],
    ['/party/rack/pickets', { party: { rack: { pickets: 2.5 } } }],
    ['/snow/hardness', { snow: { hardness: 'p' } }],
    ['/marks/0/kind', { marks: [{ positions: [[0, 0]] }] }],
    ['/marks/0/seenOn', { marks: [{ kind: 'ice', positions: [[0, 0]], seenOn: '2026-02-30' }] }],
    ['/overrides/0/way', { overrides: [{ fromM: 0, toM: 5, way: 'up' }] }],
    ['/overrides/0/toM', { overrides: [{ fromM: 10, toM: 5 }] }],
    ['/schedule/start', { schedule: { start: '2026-05-14T04:30Z' } }],
    ['/schedule/zone', { schedule: { zone: 'Atlantic/Nowhere' } }],
    ['/assumptions/a', { assumptions: { a: '1' } }],
    ['/tolerance/deadlyPct', { tolerance: { deadlyPct: null } }],
    ['/name', { name: 7 }],
  ])('%s by its place', (place, value) => {
    expect(refused(value)).toMatchObject({ code: 'PRJ-006', place });
  });

  test('ids that stand twice and references to nothing, the first twenty listed', () => {
    const mark = { id: 'same', kind: 'ice', positions: [[0, 0]] };
    const problem = refused({
      marks: Array.from({ length: 30 }, () => mark),
      schedule: { wayBack: { alternativeId: 'x' } },
    });
    expect(problem).toMatchObject({ code: 'PRJ-011', place: '/marks/1/id' });
    expect(problem.title).toContain('and 10 more');
  });
});

test('a stretch that says no way holds for both, one that does keeps it', () => {
  const project = opened({
    overrides: [
      { toM: 5, fromM: 0 },
      { toM: 5, fromM: 0, way: 'back' },
    ],
  });
  expect(project.overrides.map(({ way }) => way)).toEqual(['both', 'back']);
  expect(opened(JSON.parse(writeProject(project)) as object)).toEqual(project);
});

test('a number that cannot be written is a defect, not a null', () => {
  const project = { ...defaultProject(), ownPace: { ...defaultProject().ownPace, walkingFactor: NaN } };
  expect(() => writeProject(project)).toThrow();
});

test('the JSON Schema asks for format and version only', () => {
  const schema = projectJsonSchema();
  expect(schema['required']).toEqual(['format', 'version']);
  expect(JSON.stringify(schema)).not.toContain('"additionalProperties":false');
});
