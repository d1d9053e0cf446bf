import { describe, expect, test } from 'vitest';
import { clockIso, instantOf, timeOfDayMs } from '../../../src/core/pace/clock';

const zurich = 'Europe/Zurich';
const azores = 'Atlantic/Azores';
const utc = (iso: string) => Date.parse(iso);

/** Dates and offsets from the IANA time zone database: European Union rules, changes at 01:00 UTC. */
describe('nights on which the clocks change', () => {
  test.each([
    ['2026-03-29T02:30', zurich, '01:30 or 03:30'],
    ['2026-03-29T00:30', azores, '23:30 or 01:30'],
  ])('%s is skipped in %s', (time, zone, offered) => {
    const result = instantOf(time, zone);
    expect(result.ok).toBe(false);
    if (!result.ok) {
      expect(result.problem.code).toBe('CLOCK-003');
      expect(result.problem.remedy).toContain(offered);
    }
  });

  test.each([
    ['2026-10-25T02:30', zurich, '+02:00', '+01:00', '2026-10-25T00:30Z'],
    ['2026-10-25T00:30', azores, '+00:00', '-01:00', '2026-10-25T00:30Z'],
  ])('%s comes twice in %s, and each can be named', (time, zone, first, second, firstUtc) => {
    const result = instantOf(time, zone);
    expect(result.ok).toBe(false);
    if (!result.ok) {
      expect(result.problem.code).toBe('CLOCK-004');
      expect(result.problem.remedy).toContain(`${time}${first} or ${time}${second}`);
    }
    expect(instantOf(`${time}${first}`, zone)).toEqual({ ok: true, value: utc(firstUtc) });
    expect(instantOf(`${time}${second}`, zone)).toEqual({ ok: true, value: utc(firstUtc) + 3_600_000 });
  });

  test('walking through a change keeps real hours', () => {
    const start = instantOf('2026-03-29T01:00', zurich);
    expect(start).toEqual({ ok: true, value: utc('2026-03-29T00:00Z') });
    expect(clockIso(utc('2026-03-29T00:00Z') + 2 * 3_600_000, zurich)).toBe('2026-03-29T04:00:00+02:00');
    const before = utc('2026-10-25T00:30Z');
    expect(clockIso(before, zurich)).toBe('2026-10-25T02:30:00+02:00');
    expect(clockIso(before + 3_600_000, zurich)).toBe('2026-10-25T02:30:00+01:00');
    expect(clockIso(before, azores)).toBe('2026-10-25T00:30:00+00:00');
    expect(clockIso(before + 3_600_000, azores)).toBe('2026-10-25T00:30:00-01:00');
  });
});

test('an ordinary start', () => {
  expect(instantOf('2026-05-14T04:30', zurich)).toEqual({ ok: true, value: utc('2026-05-14T02:30Z') });
  expect(instantOf('2026-05-14T04:30:30', 'UTC')).toEqual({ ok: true, value: utc('2026-05-14T04:30:30Z') });
  expect(instantOf('2026-05-14T04:30Z', zurich)).toEqual({ ok: true, value: utc('2026-05-14T04:30Z') });
  expect(clockIso(utc('2026-05-14T02:30Z') + 999.6, zurich)).toBe('2026-05-14T04:30:01+02:00');
});

test.each([
  ['2026-02-30T04:30', zurich, 'CLOCK-002'],
  ['tomorrow', zurich, 'CLOCK-002'],
  ['', zurich, 'CLOCK-002'],
  ['2026-05-14', zurich, 'CLOCK-002'],
  ['2026-05-14T25:00', zurich, 'CLOCK-002'],
  ['2026-05-14T04:30+99:00', zurich, 'CLOCK-002'],
  ['2026-05-14T04:30', 'Nowhere/Land', 'CLOCK-001'],
  ['2026-05-14T04:30', '', 'CLOCK-001'],
])('%s in %s is asked back as %s', (time, zone, code) => {
  const result = instantOf(time, zone);
  expect(result.ok ? null : result.problem.code).toBe(code);
});

describe('times of day', () => {
  const start = utc('2026-05-14T02:30Z');
  test('later, earlier, and after midnight', () => {
    expect(clockIso(timeOfDayMs('10:00', start, zurich)!, zurich)).toBe('2026-05-14T10:00:00+02:00');
    expect(clockIso(timeOfDayMs('03:00', start, zurich)!, zurich)).toBe('2026-05-14T03:00:00+02:00');
    const evening = utc('2026-05-14T21:00Z');
    expect(clockIso(timeOfDayMs('10:00', evening, zurich)!, zurich)).toBe('2026-05-15T10:00:00+02:00');
    const midnight = utc('2026-05-14T23:00Z');
    expect(clockIso(timeOfDayMs('22:00', midnight, zurich)!, zurich)).toBe('2026-05-14T22:00:00+02:00');
  });

  test('what is no time of day is none', () => {
    expect(['24:00', '7:00', 'noon', ''].map((at) => timeOfDayMs(at, start, zurich))).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});
