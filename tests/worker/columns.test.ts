import fc from 'fast-check';
import { expect, test } from 'vitest';
import { modes, variants } from '../../src/core/domain/mode';
import type { Decision } from '../../src/core/domain/segment';
import { hardnesses, type Hardness } from '../../src/core/domain/snow';
import { runOutClasses, type RunOut, type Station } from '../../src/core/domain/station';
import { packDecisions, unpackDecisions } from '../../src/worker/plan-columns';
import { packStations, unpackStations } from '../../src/worker/profile-columns';

const number = fc.double({ noNaN: true, noDefaultInfinity: true });
const numberOrNull = fc.option(number);

const runOut: fc.Arbitrary<RunOut> = fc.record({
  class: fc.constantFrom(...runOutClasses),
  ending: fc.constantFrom('stops', 'hazard', 'drop', 'edge', 'hole', 'far'),
  maxSpeedMS: number,
  lengthM: number,
  dropM: number,
});

const station: fc.Arbitrary<Station> = fc.record({
  alongM: number,
  position: fc.tuple(number, number),
  bearingDeg: number,
  elevationM: numberOrNull,
  slopeDeg: numberOrNull,
  designSlopeDeg: numberOrNull,
  slopeSigmaDeg: numberOrNull,
  aspectDeg: numberOrNull,
  curvaturePerM: numberOrNull,
  gradeDeg: numberOrNull,
  betaDeg: numberOrNull,
  rasterIndex: fc.option(fc.nat(5)),
  runOut: fc.option(
    fc.record(
      Object.fromEntries(hardnesses.map((hardness) => [hardness, runOut])) as Record<Hardness, typeof runOut>,
    ),
  ),
});

test('stations come out of the worker as they went in, unknown values too', () => {
  fc.assert(
    fc.property(fc.array(station, { maxLength: 12 }), (stations) => {
      const moved = structuredClone(packStations(stations));
      expect(unpackStations(moved)).toEqual(stations);
    }),
    { numRuns: 60 },
  );
});

const decision: fc.Arbitrary<Decision> = fc.record({
  mode: fc.constantFrom(...modes),
  variant: fc.option(fc.constantFrom(...variants)),
  overridden: fc.boolean(),
  reason: fc.string(),
  tolerancePct: numberOrNull,
  allowed: fc.subarray([...variants]),
  unheldPct: fc
    .subarray([...variants])
    .chain((keys) => fc.record(Object.fromEntries(keys.map((key) => [key, number])))),
});

test('decisions come out of the worker as they went in, in step with their stations', () => {
  fc.assert(
    fc.property(fc.array(decision, { maxLength: 12 }), (decisions) => {
      const moved = structuredClone(packDecisions(decisions));
      expect(unpackDecisions(moved)).toEqual(decisions);
    }),
    { numRuns: 60 },
  );
});
