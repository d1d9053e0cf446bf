import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { matrixWith } from '../../../src/core/plan/condition-matrix';
import { devicesOnLine } from '../../../src/core/plan/devices-on-line';
import { planWith } from '../../../src/core/plan/make-plan';
import { fakeSlips } from './fake-slips';
import { evenly, profileOf, projectOf, type Ground } from './invented';

const adviceOn = (grounds: readonly Ground[], devices = [false, true]) => {
  const project = projectOf({ party: { ...defaultParty, rack: { pickets: 8, captureDevices: 0 } } });
  const input = { profile: profileOf(grounds), project, figures: defaultFigures };
  const plan = planWith(fakeSlips, { ...input, settling: false });
  const lookups = devices.map((captureDevices) => ({ captureDevices, lookup: fakeSlips }));
  return devicesOnLine(matrixWith(lookups, { ...input, plan }), 'P');
};

test('devices pay where they let a running belay stand instead of pitches, and not on gentle ground', () => {
  expect(adviceOn(evenly(200, { slopeDeg: 38 }))).toMatchObject({ worth: true });
  expect(adviceOn(evenly(200, { slopeDeg: 38 }))!.reason).toMatch(/min less/);
  expect(adviceOn(evenly(60, { slopeDeg: 10 }))).toEqual({
    worth: false,
    reason: 'devices save no time here',
  });
});

test('where nothing holds to the end there is no time to compare; without both columns nothing is said', () => {
  const steep = [...evenly(60, { slopeDeg: 20 }), ...evenly(60, { slopeDeg: 65 })];
  expect(adviceOn(steep)!.reason).toMatch(/no time for the whole line/);
  expect(adviceOn(steep, [false])).toBeNull();
});
