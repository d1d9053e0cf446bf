import { expect, test } from 'vitest';
import type { Waypoint } from '../../../src/core/domain/track';
import { lettersOf } from '../../../src/core/files/file-kind';
import { marksOf, markSeen } from '../../../src/core/files/waypoint-marks';

const waypoint = (changes: Partial<Waypoint>): Waypoint =>
  ({ name: '', note: '', position: [7, 46], mark: null, ...changes }) as Waypoint;
const newId = (i: number) => `new-${i}`;
const told = { id: 'm1', kind: 'ice', widthM: 4, bridge: 'solid', seenOn: '2026-01-15' };

test('a waypoint of another program becomes a note with its name', () => {
  const [named, both, neither] = marksOf(
    [waypoint({ name: 'Hut' }), waypoint({ name: 'Hut', note: 'key under the stone' }), waypoint({})],
    newId,
  );
  expect(named).toEqual({
    ...{
      id: 'new-0',
      kind: 'note',
      positions: [[7, 46]],
      widthM: null,
      bridge: null,
      seenOn: null,
      note: 'Hut',
    },
  });
  expect([both!.note, neither!.note]).toEqual(['Hut: key under the stone', '']);
});

test('waypoints of one mark of ours are one mark again, wherever the others stand', () => {
  const mark = markSeen(told)!;
  const at = (lng: number, more: Partial<Waypoint>) => waypoint({ position: [lng, 46], ...more });
  const marks = marksOf(
    [
      at(1, { mark, note: 'hard' }),
      at(2, { name: 'Hut' }),
      at(3, { mark }),
      at(4, { mark: { ...mark, id: 'm2' } }),
    ],
    newId,
  );
  expect(marks.map(({ id, positions }) => [id, positions.map(([lng]) => lng)])).toEqual([
    ['new-0', [1, 3]],
    ['new-1', [2]],
    ['new-3', [4]],
  ]);
  expect(marks[0]).toMatchObject({
    kind: 'ice',
    widthM: 4,
    bridge: 'solid',
    seenOn: '2026-01-15',
    note: 'hard',
  });
});

test('what is said of a mark is taken as far as it is known', () => {
  expect(markSeen({ ...told, kind: 'dragon' })).toBeNull();
  expect(markSeen({ ...told, id: '' })).toBeNull();
  expect(markSeen({ ...told, id: 7 })).toBeNull();
  expect(markSeen({ ...told, widthM: -1, bridge: 'golden', seenOn: 'lately' })).toMatchObject({
    ...{ widthM: null, bridge: null, seenOn: null },
  });
  expect(markSeen({ ...told, widthM: 1e5 })!.widthM).toBeNull();
});

test('problems of a file go by its name until its content is known', () => {
  expect(['a.gpx', 'a.KML', 'a.geojson', 'a.json', 'a.firnward.json', 'a.csv', 'a'].map(lettersOf)).toEqual([
    ...['GPX', 'KML', 'GEO', 'GEO', 'PRJ', 'CSV', 'GPX'],
  ]);
});
