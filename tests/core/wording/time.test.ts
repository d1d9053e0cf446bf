import { describe, expect, test } from 'vitest';
import {
  clockBriefText,
  clockSinceText,
  clockText,
  differenceText,
  durationText,
  rangeText,
  utcText,
} from '../../../src/core/wording/time';
import { notComputedText } from '../../../src/core/wording/numbers';
import { instantsOf, readLocalTime } from '../../../src/core/wording/zone';

const plain = (text: string) => text.replaceAll('\u202f', ' ');

test('durations read as hours and minutes', () => {
  expect([0, 10, 31, 3599, 3600, 4500].map((s) => plain(durationText(s)))).toEqual([
    '0 min',
    'under 1 min',
    '1 min',
    '1 h 00',
    '1 h 00',
    '1 h 15',
  ]);
});

test('a default comes with its range; what is not computed says so', () => {
  expect(plain(rangeText({ lowS: 3900, defaultS: 4800, highS: 6600 }))).toBe('1 h 05 – 1 h 50');
  expect(durationText(null)).toBe(notComputedText);
  expect(durationText(NaN)).toBe(notComputedText);
});

test('a range in minutes names its unit once', () => {
  expect(plain(rangeText({ lowS: 1080, defaultS: 1320, highS: 1980 }))).toBe('18–33 min');
  expect(plain(rangeText({ lowS: 1080, defaultS: 3000, highS: 4980 }))).toBe('18 min – 1 h 23');
});

test('differences carry their sign', () => {
  expect(plain(differenceText(900))).toBe('+15 min');
  expect(plain(differenceText(-4500))).toBe('\u22121 h 15');
  expect(differenceText(-20)).toBe('no difference');
});

describe('clock', () => {
  test('is that of its own zone, whatever this machine thinks', () => {
    expect(clockText('2027-05-14T04:30:00-02:00')).toBe('04:30');
    expect(plain(utcText('2027-05-14T04:30:00-02:00'))).toBe('06:30 UTC');
  });

  test('says when it is another day', () => {
    expect(clockSinceText('2027-05-15T01:10:00-02:00', '2027-05-14T22:30:00-02:00')).toBe('01:10 next day');
    expect(clockSinceText('2027-05-17T01:10:00-02:00', '2027-05-14T22:30:00-02:00')).toBe('01:10 (+3 days)');
    expect(clockSinceText('2027-05-12T01:10:00-02:00', '2027-05-14T22:30:00-02:00')).toBe(
      '01:10 (\u22122 days)',
    );
    expect(clockSinceText('2027-05-14T23:10:00-02:00', '2027-05-14T22:30:00-02:00')).toBe('23:10');
    expect(clockSinceText('2027-05-14T23:10:00-02:00', null)).toBe('23:10');
    expect(clockSinceText('2027-05-14T23:10:00-02:00', 'yesterday')).toBe('23:10');
  });

  test('says so briefly where room is short', () => {
    expect(plain(clockBriefText('2027-05-15T00:02:00-02:00', '2027-05-14T22:30:00-02:00'))).toBe(
      '00:02 +1 d',
    );
    expect(plain(clockBriefText('2027-05-17T00:02:00-02:00', '2027-05-14T22:30:00-02:00'))).toBe(
      '00:02 +3 d',
    );
    expect(clockBriefText('2027-05-14T23:10:00-02:00', '2027-05-14T22:30:00-02:00')).toBe('23:10');
  });

  test('is not computed where there is no time', () => {
    for (const none of [null, 'soon']) {
      expect(clockText(none)).toBe(notComputedText);
      expect(clockSinceText(none, '2027-05-14T22:30:00-02:00')).toBe(notComputedText);
      expect(utcText(none)).toBe(notComputedText);
    }
  });
});

/** Summer time in the European Union begins on the last Sunday of March at 01:00 UTC (Directive 2000/84/EC). */
describe('local times in a zone', () => {
  test('an hour that does not exist is refused, with the reason', () => {
    expect(instantsOf('2026-03-29T02:30', 'Europe/Zurich')).toEqual([]);
    const reading = readLocalTime('2026-03-29', '02:30', 'Europe/Zurich');
    expect(reading).toEqual({
      ok: false,
      message: '02:30 does not exist on 2026-03-29 in Europe/Zurich: clocks go forward. Enter another time',
    });
  });

  test('an hour that comes twice is told', () => {
    expect(instantsOf('2026-10-25T02:30', 'Europe/Zurich')).toHaveLength(2);
    const reading = readLocalTime('2026-10-25', '02:30', 'Europe/Zurich');
    expect(reading.ok && reading.note).toContain('comes twice');
  });

  test('a plain time has one instant', () => {
    expect(instantsOf('2026-05-14T04:30', 'Atlantic/South_Georgia')).toEqual([Date.UTC(2026, 4, 14, 6, 30)]);
  });

  test.each([
    ['2026-02-30', '04:30'],
    ['20226-01-01', '04:30'],
    ['2026-05-14', '24:00'],
    ['14.5.2026', '04:30'],
    ['2026-05-14', '4:30'],
  ])('%s %s is refused', (date, clock) => {
    expect(readLocalTime(date, clock, 'Etc/UTC').ok).toBe(false);
  });

  test('a plain time in a zone is taken as it is', () => {
    expect(readLocalTime('2031-05-14', '04:30', 'Atlantic/South_Georgia')).toEqual({
      ok: true,
      value: '2031-05-14T04:30',
      note: null,
    });
  });

  test('a zone that nobody knows', () => {
    expect(readLocalTime('2026-05-14', '04:30', 'Atlantic/Nowhere').ok).toBe(false);
  });
});
