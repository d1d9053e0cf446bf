import { describe, expect, test } from 'vitest';
import { applyFigures } from '../../../src/core/assumptions/apply';
import { distanceM } from '../../../src/core/line/geodesic';
import { makeStations } from '../../../src/core/line/stations';
import { declinationAt } from '../../../src/core/sheet/declination';
import { entryOf } from '../../../src/core/assumptions/catalogue';
import { paceFactorLimits } from '../../../src/core/domain/project';
import { partyLimits } from '../../../src/core/domain/rope-team';
import { readProject } from '../../../src/core/files/project';
import { numberRule, readNumber, type NumberRule } from '../../../src/core/wording/number-field';
import type { Units } from '../../../src/core/wording/units';
import { digits, lengthText, slopeText, unknownText } from '../../../src/core/wording/numbers';
import { fieldText, quantity } from '../../../src/core/wording/quantity';
import { readLocalTime } from '../../../src/core/wording/zone';
import { groundLine } from '../../../src/app/ledger/totals-wording';
import { madeUpPlan } from '../../app/fixture/made-up-plan';

/** The rules of the forms' own fields, as the forms make them. */
const ropeIn = (units: Units) => {
  const [min, max] = partyLimits.ropeLengthM.form;
  return numberRule({ label: 'Rope length', kind: 'length', units, min, max });
};
const rope = ropeIn('metric');
const figureField = (key: string) => {
  const { label, unit, min, max } = entryOf.get(key)!;
  return numberRule({ label, kind: 'plain', units: 'metric', unit, min, max });
};
const slope = figureField('rule.noneAboveDeg');
const free = { asked: 'a figure', unit: '', min: -10_000, max: 10_000 };
const words = (text: string, rule: NumberRule) => {
  const reading = readNumber(text, rule);
  return reading.ok ? reading.value : reading.message;
};

describe('numbers typed by hand', () => {
  test('N1 an empty field says what it wants', () => {
    expect(words('', rope)).toBe('Enter rope length in metres');
  });

  test('N2 a comma and a point both part decimals', () => {
    expect([words('12,5', free), words('12.5', free)]).toEqual([12.5, 12.5]);
  });

  test('N3 what may be thousands or thousandths is not guessed', () => {
    for (const text of ['1,234', '1.234']) expect(words(text, free)).toContain('can be read two ways');
    expect(words('1.234 m', { ...free, unit: 'm' })).toBe(1.234);
  });

  test.each(['1e3', '0x10', 'Infinity', 'NaN', '--5', '5-3'])('N4 %s is no plain number', (text) => {
    expect(words(text, free)).toContain('is not a plain number');
  });

  test('N5 digits of other scripts are digits', () => {
    expect([words('４５', rope), words('٤٥', rope)]).toEqual([45, 45]);
  });

  test.each(['-5', '0', '1000'])('N6 a rope of %s m is out of range, and the range is said', (text) => {
    expect(words(text, rope)).toBe('Enter rope length in metres between 20 and 120');
  });

  test('N6 in feet the limits are those of metres, never wider', () => {
    const feet = ropeIn('imperial');
    expect(words('60', feet)).toBe('Enter rope length in feet between 65.62 and 393.7');
    expect([words('65.62', feet), words('393.7', feet)]).toEqual([65.62, 393.7]);
    expect([feet.min * 0.3048 >= 20, feet.max * 0.3048 <= 120]).toEqual([true, true]);
  });

  test('N7 with other units the value is converted, not read anew', () => {
    expect(fieldText(30, quantity('length', 'imperial'))).toBe('98.4');
  });

  test('N8 a slope is in degrees, with its unit; per cent and more than upright are refused', () => {
    expect(words('45 %', slope)).toContain('is not a plain number');
    expect(words('45°', slope)).toBe(45);
    expect(words('95', slope)).toBe('Enter no mode holds above between 30 and 70');
    for (const [key, { unit, max }] of entryOf) if (unit === '°') expect(max, key).toBeLessThanOrEqual(90);
  });

  test.each([0, 2.5, 99])(
    'N9 %s climbers are refused: a form adds them one by one, a file must list them',
    (count) => {
      const climbers = Array.from({ length: Math.floor(count) }, () => ({ name: 'A' }));
      const party = Number.isInteger(count) ? { climbers } : { climbers: count };
      const text = JSON.stringify({ format: 'firnward-project', version: 1, party });
      const read = readProject(text, 'team.firnward.json');
      expect(read.ok ? null : read.problem.place).toBe('/party/climbers');
      expect(partyLimits.climbers.form[0]).toBe(1);
    },
  );

  test('N10 a pace of nothing is refused where it is entered, and in a file: no time becomes endless', () => {
    const [min, max] = paceFactorLimits.form;
    const factor = numberRule({ label: 'Our walking', kind: 'factor', units: 'metric', min, max });
    expect(words('0', factor)).toBe('Enter our walking between 0.3 and 5');
    const text = '{"format": "firnward-project", "version": 1, "ownPace": {"walkingFactor": 0}}';
    const read = readProject(text, 'pace.firnward.json');
    expect(read.ok ? null : read.problem.place).toBe('/ownPace/walkingFactor');
    const speeds = [...entryOf].filter(([key]) => key.startsWith('speed.'));
    expect(speeds.length).toBeGreaterThan(0);
    for (const [key, { min: least }] of speeds) expect(least, key).toBeGreaterThan(0);
  });
});

describe('dates and times typed by hand', () => {
  test('N11 an hour that the clocks leave out is refused; one that comes twice is told', () => {
    expect(readLocalTime('2026-03-29', '02:30', 'Europe/Zurich')).toMatchObject({
      ok: false,
      message: expect.stringContaining('02:30 does not exist on 2026-03-29 in Europe/Zurich') as string,
    });
    expect(readLocalTime('2026-10-25', '02:30', 'Europe/Zurich')).toMatchObject({
      ok: true,
      note: expect.stringContaining('comes twice') as string,
    });
  });

  test.each([
    ['2026-02-30', 'is not a date'],
    ['20226-02-01', 'is not a date'],
  ])('N12 %s', (date, why) => {
    const reading = readLocalTime(date, '04:30', 'UTC');
    expect(reading.ok ? '' : reading.message).toContain(why);
  });

  test('N14 beside the magnetic pole the declination is not to be used', () => {
    const found = declinationAt([136, -64.5], '2026-01-01');
    expect(found?.isUsable).toBe(false);
    expect(found?.text).toContain('compass is unreliable');
  });

  test('N15 beyond the years of the magnetic model its figure is not to be used', () => {
    const found = declinationAt([-21.4, -48.5], '2031-05-14');
    expect(found?.isUsable).toBe(false);
    expect(found?.text).toContain('outside the years of the model');
  });
});

describe('figures that are shown', () => {
  test('N16 what is unknown is named beside the sum, never added as nothing', () => {
    const { totals } = madeUpPlan();
    const byMode = { ...totals.byMode, 'no-data': { lengthM: 800, timeS: null } };
    const text = groundLine({ ...totals, byMode, ascentM: null, descentM: null }, 'metric');
    expect(text).toBe(
      `${lengthText(totals.lengthM, 'metric')} (800\u202fm without ground data), rise unknown`,
    );
    expect(lengthText(null, 'metric')).toBe(unknownText);
  });

  test('N17 a slope just below a rule does not read as if it had reached it', () => {
    expect(slopeText(49.96)).toBe('just under 50°');
    expect(slopeText(50)).toBe('50°');
  });

  test('N18 nothing is shown as less than nothing', () => {
    expect([digits(-0), digits(-0.4)]).toEqual(['0', '0']);
  });

  test('N19 points a millionth of a metre apart give no direction that is none', () => {
    const near = makeStations(
      [
        [-21.4, -48.5],
        [-21.4 + 1e-14, -48.5],
        [-21.4, -48.501],
      ],
      { stepM: 5, alsoAtM: [] },
    );
    expect(near.length).toBeGreaterThan(20);
    expect(near.every(({ bearingDeg, position }) => [bearingDeg, ...position].every(Number.isFinite))).toBe(
      true,
    );
    expect(distanceM([-21.4, -48.5], [-21.4 + 1e-14, -48.5])).toBeGreaterThanOrEqual(0);
  });

  test('N20 figures that only make sense in one order are refused by name', () => {
    const applied = applyFigures({ 'runOut.gentleMaxMS': 20 });
    expect(applied).toMatchObject({ ok: false, problem: { code: 'FIG-003', place: 'runOut.gentleMaxMS' } });
  });
});
