import { expect, test } from 'vitest';
import { problemLine } from '../../../src/core/domain/problem';
import { readProject, readProjectFile, writeProject } from '../../../src/core/files/project';
import { tooLarge } from '../../../src/core/files/text';

const file = (inside: string) =>
  `{"format": "firnward-project", "version": 1${inside === '' ? '' : `, ${inside}`}}`;
const mark = (id: string) => `{"id": "${id}", "kind": "ice", "positions": [[0, 0]]}`;

interface Row {
  readonly row: string;
  readonly text: string;
  readonly refused?: string;
  readonly place?: string | RegExp;
  readonly title?: RegExp;
}

const rows: readonly Row[] = [
  { row: 'P1 empty', text: '', refused: 'PRJ-001', place: 'line 1, column 1' },
  { row: 'P1 not JSON', text: 'hello', refused: 'PRJ-001', place: 'line 1, column 1' },
  { row: 'P1 cut off', text: file('"name": "x"').slice(0, -4), refused: 'PRJ-001', title: /cut off/ },
  { row: 'P1 a comma too many', text: file('"name": "x",'), refused: 'PRJ-001' },
  { row: 'P1 a single quote', text: file("'name': 1"), refused: 'PRJ-001' },
  { row: 'P1 a broken escape', text: file('"name": "\\x"'), refused: 'PRJ-001' },
  {
    row: 'P1 a line break in a text',
    text: file('"name": "a\nb"'),
    refused: 'PRJ-001',
    place: 'line 1, column 56',
  },
  {
    row: 'P2 JSON of another program',
    text: '{"layers": []}',
    refused: 'PRJ-002',
    title: /does not say "format"/,
  },
  { row: 'P2 a list', text: '[]', refused: 'PRJ-002' },
  {
    row: 'P3 a newer version',
    text: '{"format": "firnward-project", "version": 7}',
    refused: 'PRJ-003',
    title: /newer/,
  },
  {
    row: 'P4 a version before the first',
    text: '{"format": "firnward-project", "version": 0}',
    refused: 'PRJ-006',
  },
  { row: 'P5 unknown keys', text: file('"x": {"y": [1, null, "z"]}') },
  {
    row: 'P6 a text for a number',
    text: file('"party": {"rope": {"lengthM": "60"}}'),
    refused: 'PRJ-006',
    place: '/party/rope/lengthM',
  },
  { row: 'P6 a number for a text', text: file('"notes": 5'), refused: 'PRJ-006', place: '/notes' },
  {
    row: 'P6 a key with a slash',
    text: file('"assumptions": {"a/b~c": "1"}'),
    refused: 'PRJ-006',
    place: '/assumptions/a~1b~0c',
  },
  { row: 'P7 a number too large', text: file('"x": 1e999'), refused: 'PRJ-007' },
  { row: 'P7 NaN', text: file('"x": NaN'), refused: 'PRJ-001' },
  { row: 'P7 null for a number', text: file('"party": {"rope": {"lengthM": null}}'), refused: 'PRJ-006' },
  { row: 'P7 twenty digits', text: file('"x": 12345678901234567890'), refused: 'PRJ-007' },
  { row: 'P8 __proto__', text: file('"__proto__": {"polluted": true}'), refused: 'PRJ-008' },
  {
    row: 'P8 __proto__ deep inside what is unknown',
    text: file('"x": [{"y": {"__proto__": {"polluted": true}}}]'),
    refused: 'PRJ-008',
  },
  {
    row: 'P8 constructor',
    text: file('"constructor": {"prototype": {"polluted": true}}'),
    refused: 'PRJ-008',
  },
  { row: 'P8 spelt with escapes', text: file('"\\u005f_proto__": {}'), refused: 'PRJ-008' },
  {
    row: 'P9 a key twice',
    text: file('"name": "a", "name": "b"'),
    refused: 'PRJ-009',
    title: /"name" stands twice/,
  },
  {
    row: 'P9 a key twice, once with escapes',
    text: file('"name": "a", "\\u006eame": "b"'),
    refused: 'PRJ-009',
  },
  { row: 'P10 over 50 MB', text: ' '.repeat(50 * 1024 * 1024 + 1), refused: 'PRJ-010' },
  {
    row: 'P10 10 000 deep',
    text: file(`"x": ${'['.repeat(10_000)}${']'.repeat(10_000)}`),
    refused: 'PRJ-010',
  },
  {
    row: 'P11 ids twice',
    text: file(`"marks": [${mark('a')}, ${mark('a')}]`),
    refused: 'PRJ-011',
    place: '/marks/1/id',
  },
  {
    row: 'P11 the way back to nowhere',
    text: file('"schedule": {"wayBack": {"alternativeId": "gone"}}'),
    refused: 'PRJ-011',
    place: '/schedule/wayBack/alternativeId',
  },
  {
    row: 'P11 a stretch that ends before it begins',
    text: file('"overrides": [{"fromM": 5, "toM": 1}]'),
    refused: 'PRJ-006',
    place: '/overrides/0/toM',
  },
  {
    row: 'P14 a raster that is not there is only a name',
    text: file('"terrain": [{"fileName": "DEM_2025.tif", "checksum": "00"}]'),
  },
  {
    row: 'P12 stored results are not believed: they stay what they are, and every opening plans anew',
    text: file('"plan": {"totals": {"timeS": 1}}, "segments": [{"mode": "roped"}]'),
  },
  {
    row: 'P13 a checksum of somebody else is kept, not trusted: every field is checked on its own',
    text: file('"checksum": "00", "name": "edited by hand"'),
  },
  { row: 'P18 a name that is a path', text: file('"name": "../../etc/passwd"') },
];

test.each(rows)('$row', (row) => {
  const result = readProject(row.text, 'a.firnward.json');
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  if (row.refused === undefined) {
    if (!result.ok) throw new Error(problemLine(result.problem));
    const again = JSON.parse(writeProject(result.value.project)) as object;
    expect(again).toMatchObject(JSON.parse(row.text) as object);
    return;
  }
  if (result.ok) throw new Error('it was opened');
  const { problem } = result;
  expect(problem.code).toBe(row.refused);
  expect(problem.remedy.length).toBeGreaterThan(10);
  if (typeof row.place === 'string') expect(problem.place).toBe(row.place);
  if (row.title) expect(problem.title).toMatch(row.title);
});

const encode = (text: string) => new TextEncoder().encode(text);

test('P1 what is not UTF-8 is refused with its byte, never opened with replaced letters', () => {
  const bytes = encode(file('"name": "M?ller"'));
  bytes[bytes.indexOf(0x3f)] = 0xfc;
  const result = readProjectFile(bytes, 'a.firnward.json');
  expect(!result.ok && result.problem).toMatchObject({ code: 'PRJ-013', place: 'byte 55' });
  expect(!result.ok && result.problem.question).toBeUndefined();
  const whole = readProjectFile(encode(file('"name": "Müller"')), 'a.firnward.json');
  expect(whole.ok && whole.value.project.name).toBe('Müller');
});

test('P10 a file of 1 GB is refused by its size, before it is read', () => {
  expect(tooLarge(2 ** 30, { subject: 'a.firnward.json', letters: 'PRJ' })).toMatchObject({
    code: 'PRJ-034',
    title: 'the file has 1024 MB, more than 50 MB',
  });
});

test('P11 of many faults the first twenty are told, and how many more there are', () => {
  const marks = Array.from({ length: 60 }, () => mark('a')).join(',');
  const result = readProject(file(`"marks": [${marks}]`), 'a.firnward.json');
  expect(!result.ok && result.problem.title.match(/stands twice/g)).toHaveLength(20);
  expect(!result.ok && result.problem.title).toMatch(/and 39 more$/);
});
