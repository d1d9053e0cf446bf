import { describe, expect, test } from 'vitest';
import { defaultParty, type Party } from '../../../src/core/domain/rope-team';
import { paceReport, type PaceQuestion } from '../../../src/core/pace/pace-report';

const party = (more: { intervalM?: number; pickets?: number; lastMayLead?: boolean } = {}): Party => ({
  ...defaultParty,
  climbers: defaultParty.climbers.map((climber, i) => ({
    ...climber,
    mayLead: i === 0 || (i === 2 && more.lastMayLead === true),
  })),
  rope: { ...defaultParty.rope, intervalM: more.intervalM ?? 15 },
  rack: { pickets: more.pickets ?? 3, captureDevices: 0 },
});
const belay: PaceQuestion = { lengthM: 300, mode: 'running-belay', party: party() };

const report = (question: PaceQuestion) => {
  const result = paceReport(question);
  if (!result.ok) throw new Error(result.problem.title);
  return result.value;
};

describe('running belay', () => {
  test('with the standard acts', () => {
    expect(report(belay)).toEqual({
      timeS: 8925,
      rotations: 10,
      gatherings: 10,
      piecesPlaced: 21,
      stops: 41,
    });
  });

  test('acts, speed and spacing can be given', () => {
    expect(report({ ...belay, spacingM: 7.5, party: party({ pickets: 6 }) }).timeS).toBeCloseTo(11_775, 6);
    expect(report({ ...belay, actsS: { place: 160 } }).timeS).toBe(8925 + 21 * 10);
    expect(report({ ...belay, actsS: { stance: 0, handover: 0 } }).timeS).toBe(8925 - 10 * 120 - 9 * 120);
    expect(report({ ...belay, actsS: { anchor: 1, change: 1 } }).timeS).toBe(8925);
    expect(report({ ...belay, speedMS: 0.4 }).timeS).toBe(8925 - 600 / 0.4);
  });

  test('a last who may lead saves the handovers', () => {
    const swapping = { ...belay, lastLeads: true };
    expect(report({ ...swapping, party: party({ lastMayLead: true }) }).timeS).toBe(8925 - 9 * 120);
    expect(report(swapping).timeS).toBe(8925);
  });

  test('placing depends on the snow', () => {
    expect(report({ ...belay, snow: { hardness: 'K', wetness: 'D' } }).timeS).toBe(8925 + 21 * 75);
    expect(report({ ...belay, snow: { hardness: '1F', wetness: 'D' } }).timeS).toBeGreaterThan(
      8925 + 21 * 300,
    );
  });
});

test('pitched belay in full rope lengths', () => {
  const pitchS = 500 + 6 * 150 + 300 + 50 / 0.17 + 6 * 45 + 240;
  const pitched: PaceQuestion = { ...belay, mode: 'pitched-belay' };
  expect(report(pitched).timeS).toBeCloseTo(300 + 6 * pitchS - 240, 6);
  expect(report(pitched)).toMatchObject({ rotations: 0, gatherings: 6, piecesPlaced: 36 + 14 });
  expect(report({ ...pitched, actsS: { anchor: 400, change: 60 } }).timeS).toBeCloseTo(
    400 + 6 * (pitchS + 100 - 180) - 60,
    6,
  );
});

test('roped travel on the level, and a crossing', () => {
  expect(report({ ...belay, mode: 'roped' })).toMatchObject({ timeS: (0.3 / 5) * 3600, piecesPlaced: 0 });
  expect(report({ ...belay, mode: 'belayed-crossing', lengthM: 6 }).timeS).toBeCloseTo(900 + 18 / 0.15, 6);
});

test.each<[string, Partial<PaceQuestion>]>([
  ['length', { lengthM: 0 }],
  ['length', { lengthM: NaN }],
  ['speed', { speedMS: 0 }],
  ['spacing', { spacingM: 16 }],
  ['spacing', { spacingM: 0 }],
  ['pickets', { party: party({ pickets: 1 }) }],
  ['climbers', { party: { ...party(), climbers: party().climbers.slice(0, 1) } }],
  ['act place', { actsS: { place: -1 } }],
  ['snow', { snow: { hardness: 'I', wetness: 'D' } }],
  ['mode', { mode: 'none-holds' }],
  ['rope', { mode: 'pitched-belay', party: { ...party(), rope: { ...party().rope, lengthM: 9 } } }],
])('%s out of place is said', (place, wrong) => {
  const result = paceReport({ ...belay, ...wrong });
  expect(result.ok ? null : result.problem.place).toBe(place);
});

test('a pitch on ice, or for one alone, is refused with its remedy', () => {
  const asked = { lengthM: 50, mode: 'pitched-belay' } as const;
  const ice = paceReport({ ...asked, snow: { hardness: 'I', wetness: 'D' } });
  expect(ice.ok ? null : ice.problem).toMatchObject({ code: 'PACE-001', place: 'snow' });
  const alone = { ...defaultParty, climbers: defaultParty.climbers.slice(0, 1) };
  const one = paceReport({ ...asked, party: alone });
  expect(one.ok ? null : one.problem).toMatchObject({ code: 'PACE-001', place: 'climbers' });
});
