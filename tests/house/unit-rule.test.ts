import { Linter } from 'eslint';
import { describe, expect, test } from 'vitest';
import { oneUnit } from '../../.scripts/unit-rule.mjs';

const linter = new Linter();
const said = (code: string) =>
  linter
    .verify(code, [
      { plugins: { units: { rules: { 'one-unit': oneUnit } } }, rules: { 'units/one-unit': 'error' } },
    ])
    .map(({ message }) => message);

/** The whole tree is held to it by `npm run lint`. */
describe('values of different units do not meet', () => {
  test.each([
    ['const lengthM = alongDeg;', '"lengthM" is in M, "alongDeg" in Deg.'],
    ['const at = { fromM: line.fromPx };', '"fromM" is in M, "fromPx" in Px.'],
    ['timeS = startMs;', '"timeS" is in S, "startMs" in Ms.'],
    ['const late = waitS > limitMin;', '"waitS" is in S, "limitMin" in Min.'],
    ['const sum = forceN + -loadKN;', '"forceN" is in N, "loadKN" in KN.'],
    ['const slopeDeg = slopeRad(a);', '"slopeDeg" is in Deg, "slopeRad" in Rad.'],
    ['const stiffnessNPerM = lengthM;', '"stiffnessNPerM" is in PerM, "lengthM" in M.'],
    ['const { fromM: toDeg } = line;', '"fromM" is in M, "toDeg" in Deg.'],
    ['class A { massKg = ropeM; }', '"massKg" is in Kg, "ropeM" in M.'],
  ])('%s', (code, message) => {
    expect(said(code)).toEqual([message]);
  });

  test.each([
    'const timeS = lengthM / speedMS;',
    'const slopeRad = (slopeDeg * Math.PI) / 180;',
    'const lengthM = NaN;',
    'const toM = fromM + lengthM;',
    'const perM = secondsPerM;',
    'const { alongM } = station; const items = list[alongM];',
    'const UTM = DEM;',
  ])('%s is left alone', (code) => {
    expect(said(code)).toEqual([]);
  });
});
