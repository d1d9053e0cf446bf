import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  isClockTime,
  isLocalDateTime,
  isPlanDate,
  isRealDate,
  isTimeOfDay,
  isTimeZone,
} from '../../../src/core/domain/calendar';
import { readInstant } from '../../../src/core/files/instant';
import { csv, number, text } from '../../../src/core/files/csv';
import { readJson } from '../../../src/core/files/json';
import { limits } from '../../../src/core/files/limits';
import { fixed, lngText, rounded, trimmed } from '../../../src/core/files/number-text';
import { attempt, Refusal, Refuser } from '../../../src/core/files/refusal';
import { decodeText, firstNotUtf8 } from '../../../src/core/files/text';
import { TrackBuilding } from '../../../src/core/files/track-building';
import { readTrackFile } from '../../../src/core/files/track-file';

const bytes = (text: string) => new TextEncoder().encode(text);
const refuser = new Refuser('file', 'GPX');

describe('dates and times', () => {
  test('a date as it is typed is of a year that a plan can be for', () => {
    const dates = ['1900-01-01', '2200-12-31', '2028-02-29', '1899-12-31', '2201-01-01', '1026-05-14'];
    expect([...dates, '2027-02-29', '2027-5-1'].filter(isPlanDate)).toEqual(dates.slice(0, 3));
  });

  test('a time of day as it is typed has two digits an hour and no seconds', () => {
    expect(['00:00', '19:59', '23:59', '24:00', '12:60', '1:00', '12:00:00'].filter(isTimeOfDay)).toEqual([
      '00:00',
      '19:59',
      '23:59',
    ]);
  });

  test('zones are known or not', () => {
    expect(['UTC', 'Atlantic/Azores', 'Pacific/Chatham'].map(isTimeZone)).toEqual([true, true, true]);
    expect(['', 'x', 'Mars/Base', 'Atlantic/Nowhere'].map(isTimeZone)).toEqual([false, false, false, false]);
  });

  test('only what the calendar has', () => {
    expect(['2028-02-29', '2000-02-29', '2031-12-31'].every(isRealDate)).toBe(true);
    expect(
      ['2031-02-29', '1900-02-29', '2031-13-01', '2031-04-31', '2031-00-10', '2031-01-00', '31-01-01'].some(
        isRealDate,
      ),
    ).toBe(false);
    expect(['00:00', '23:59:59.123'].every(isClockTime)).toBe(true);
    expect(['24:00', '12:60', '12'].some(isClockTime)).toBe(false);
    expect(isLocalDateTime('2031-05-14T04:30')).toBe(true);
    expect(['2031-05-14', '2031-05-14T04:30T', '2031-05-14 04:30', ''].some(isLocalDateTime)).toBe(false);
    expect([
      isTimeZone('UTC'),
      isTimeZone('Atlantic/Azores'),
      isTimeZone(''),
      isTimeZone('Moon/Base'),
    ]).toEqual([true, true, false, false]);
  });

  test.each<[string, number | string | null]>([
    ['2031-05-14T04:30:00Z', Date.UTC(2031, 4, 14, 4, 30)],
    ['2031-05-14t04:30:00z', Date.UTC(2031, 4, 14, 4, 30)],
    ['2031-05-14T04:30:00-0530', Date.UTC(2031, 4, 14, 10)],
    ['2031-05-14T04:30:00+14:00', Date.UTC(2031, 4, 13, 14, 30)],
    ['2031-05-14T04:30:00.9996Z', Date.UTC(2031, 4, 14, 4, 30, 1)],
    ['2031-05-14T04:30:00+15:00', null],
    ['2031-05-14T04:30:00+02:60', null],
    ['2031-05-14T24:00:00Z', null],
    ['2031-05-14', null],
    ['2031-05-14T04:30:00', 'no zone'],
  ])('%s', (text, expected) => {
    const read = readInstant(text);
    expect(read === null || read === 'no zone' ? read : read.timeMs).toBe(expected);
  });
});

describe('bytes as text', () => {
  const from = { subject: 'f', letters: 'GPX', latin1IfNotUtf8: false };

  test('the first byte that is not UTF-8 is where the platform stops too', () => {
    const lead = fc.constantFrom(
      0x00,
      0x41,
      0x7f,
      0x80,
      0xbf,
      0xc0,
      0xc2,
      0xdf,
      0xe0,
      0xe1,
      0xed,
      0xef,
      0xf0,
      0xf4,
      0xf5,
      0xff,
    );
    fc.assert(
      fc.property(
        fc.array(fc.oneof(lead, fc.constantFrom(0x80, 0x8f, 0x90, 0x9f, 0xa0, 0xbf)), { maxLength: 12 }),
        (list) => {
          const all = Uint8Array.from(list);
          const at = firstNotUtf8(all);
          const strict = (part: Uint8Array) =>
            new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(part);
          expect(() => strict(all.slice(0, at))).not.toThrow();
          if (at < all.length) expect(() => strict(all.slice(0, Math.min(at + 4, all.length)))).toThrow();
          else expect(() => strict(all)).not.toThrow();
        },
      ),
      { numRuns: 5000, seed: 9 },
    );
  });

  test('UTF-16 without a mark is known by its first bracket', () => {
    const little = Uint8Array.from([0x3c, 0, 0x61, 0]);
    const big = Uint8Array.from([0, 0x3c, 0, 0x61]);
    for (const [each, encoding] of [
      [little, 'utf-16le'],
      [big, 'utf-16be'],
    ] as const)
      expect(decodeText(each, from)).toMatchObject({ ok: true, value: { text: '<a', encoding } });
    expect(decodeText(Uint8Array.of(0, 0x41), from)).toMatchObject({ ok: true, value: { text: '\0A' } });
  });

  test('half a character of UTF-16 is refused without a question', () => {
    const result = decodeText(Uint8Array.from([0xff, 0xfe, 0x3c]), { ...from, latin1IfNotUtf8: true });
    expect(result).toMatchObject({ ok: false, problem: { code: 'GPX-013', place: null } });
    expect(!result.ok && 'question' in result.problem).toBe(false);
  });

  test('bytes said to be UTF-16 that are plainly not are read as UTF-8', () => {
    const text = '<?xml version="1.0" encoding="UTF-16"?><a/>';
    expect(decodeText(bytes(text), from)).toMatchObject({ ok: true, value: { text, encoding: 'utf-8' } });
  });
});

describe('a refusal and a defect', () => {
  test('a refusal is a value, a defect goes on', () => {
    expect(attempt(() => 1)).toEqual({ ok: true, value: 1 });
    const problem = refuser.problem('001', null, 't', 'r');
    expect(
      attempt(() => {
        throw new Refusal(problem);
      }),
    ).toEqual({ ok: false, problem });
    expect(() =>
      attempt(() => {
        throw new TypeError('ours');
      }),
    ).toThrow('ours');
  });
});

describe('numbers as text', () => {
  test('never an exponent, never "-0", never the unknown as a number', () => {
    expect([fixed(-0.0001, 3), fixed(1e-9, 3), fixed(1234567.8, 1), trimmed(1.5, 9), trimmed(-2, 3)]).toEqual(
      ['0.000', '0.000', '1234567.8', '1.5', '-2'],
    );
    expect([rounded(null, 3), rounded(undefined, 3), rounded(NaN, 3), rounded(1.23456, 3)]).toEqual([
      null,
      null,
      null,
      1.235,
    ]);
    expect([lngText(180), lngText(179.9999999999), lngText(-180), lngText(7.5)]).toEqual([
      '-180',
      '-180',
      '-180',
      '7.5',
    ]);
    expect(() => fixed(NaN, 1)).toThrow();
    expect(() => rounded(Infinity, 1)).toThrow();
  });

  test('a CSV record of another length is a defect', () => {
    expect(() => csv(['a'], ['x'], (row) => [text(row), number(1, 0)])).toThrow();
  });
});

describe('JSON', () => {
  const read = (text: string) => attempt(() => readJson(text, refuser, 'r'));

  test('reads what the platform reads, on any value', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        const own = read(text);
        const theirs = JSON.parse(text) as unknown;
        // Stricter on purpose: numbers beyond the exact integers, keys that change objects.
        if (own.ok) expect(own.value).toEqual(theirs);
        else expect(['GPX-007', 'GPX-008', 'GPX-010']).toContain(own.problem.code);
      }),
      { numRuns: 2000, seed: 4 },
    );
  });

  test.each(['"\\u00e9\\n\\"\\\\"', '[1,-2.5e-3,0,true,false,null]', '{"a":{"b":[]}}', ' [ ] ', '1e5'])(
    '%s',
    (text) => {
      expect(read(text)).toEqual({ ok: true, value: JSON.parse(text) as unknown });
    },
  );

  test.each([
    '01',
    '+1',
    '.5',
    '1.',
    '[1,]',
    '{"a" 1}',
    '{a:1}',
    '"\u0001"',
    'tru',
    '[1 2]',
    '{"a":1,}',
    '"a',
    '"\\u12"',
  ])('not %s', (text) => {
    expect(read(text)).toMatchObject({ ok: false, problem: { code: 'GPX-001' } });
    expect(() => JSON.parse(text) as unknown).toThrow();
  });
});

test('more than two million points are refused while they are read', () => {
  const building = new TrackBuilding(refuser, {});
  const place = () => 'here';
  for (let i = 0; i < limits.points; i++) building.position(7, 46, place);
  expect(attempt(() => building.position(7, 46, place))).toMatchObject({
    ok: false,
    problem: { code: 'GPX-034', place: 'here' },
  });
});

describe('missing fixes in several tracks', () => {
  const track = (points: string) => `<trk><trkseg>${points}</trkseg></trk>`;
  const zero = '<trkpt lat="0" lon="0"/>';
  const real = '<trkpt lat="46" lon="7"/>';
  const gpx = bytes(
    `<gpx xmlns="http://www.topografix.com/GPX/1/1">${track(zero.repeat(30) + real)}${track(zero + zero)}</gpx>`,
  );

  test('the first twenty are listed, tracks that stay at 0, 0 are believed', () => {
    const result = readTrackFile(gpx, 'a.gpx');
    if (result.ok) throw new Error('it was opened');
    expect(result.problem.place).toMatch(/^track 1, part 1, point 1; .* and 10 more$/);
    expect(result.problem.title).toMatch(/^30 points/);
  });

  test('dropped or kept as the user says', () => {
    const counts = (answer: string) => {
      const result = readTrackFile(gpx, 'a.gpx', { 'GPX-025': answer });
      return result.ok && result.value.tracks.map(({ parts }) => parts.flat().length);
    };
    expect(counts('keep')).toEqual([31, 2]);
    expect(counts('drop')).toEqual([1, 2]);
  });
});
