import { defaultFigures } from '../../src/core/assumptions/figures';
import { defaultParty, type Party } from '../../src/core/domain/rope-team';
import { hardnesses } from '../../src/core/domain/snow';
import type { GroundProfile } from '../../src/core/domain/station';
import { conditionMatrix, partyWithDevices } from '../../src/core/plan/condition-matrix';
import { makePlan } from '../../src/core/plan/make-plan';
import { snowsOnLine } from '../../src/core/plan/snows';
import { buildTables } from '../../src/core/slip/tables';
import { profileOf, projectOf } from '../core/plan/invented';
import { medianMs, type Figure } from './figure';

/** How fast a line is planned again, with tables ready, and whether long lines take their share and no more. */

const party: Party = { ...defaultParty, rack: { pickets: 6, captureDevices: 0 } };
const project = projectOf({ party });
const snows = snowsOnLine(project, hardnesses);
const figures = defaultFigures;

export default async function planFigures(): Promise<readonly Figure[]> {
  const tables = buildTables(party, figures, snows, { quality: 'coarse' });
  const deviceTables = buildTables(partyWithDevices(party), figures, snows, {
    quality: 'coarse',
    variants: ['running-capture'],
  });
  const planAgain = (profile: GroundProfile) => makePlan({ profile, project, figures, tables });
  // A moved vertex gives a new list of stations: nothing read off the old one helps.
  const moved = (profile: GroundProfile): GroundProfile => ({ ...profile, stations: [...profile.stations] });

  const short = mountain(2_000);
  const long = mountain(20_000);
  const shortMs = await medianMs(31, () => planAgain(moved(short)));
  const longMs = await medianMs(5, () => planAgain(moved(long)));
  const plan = planAgain(short);
  const matrixMs = await medianMs(5, () =>
    conditionMatrix({ profile: short, project, figures, plan, tables, deviceTables }),
  );
  let pickets = 4;
  const picketsMs = await medianMs(31, () => {
    pickets = 11 - pickets;
    const rack = { ...party.rack, pickets };
    return makePlan({ profile: short, project: { ...project, party: { ...party, rack } }, figures, tables });
  });
  const steps: number[] = [];
  const coldMs = await medianMs(1, () => {
    const quality = 'final';
    const all = buildTables(party, figures, snows, { quality });
    const variants = ['running-capture'] as const;
    const devices = buildTables(partyWithDevices(party), figures, snows, { quality, variants });
    const asked = { profile: short, project, figures, plan, tables: all, deviceTables: devices };
    return conditionMatrix({ ...asked, onProgress: (done) => void steps.push(done) });
  });
  return [
    { name: 'replan-10-km-other-pickets', value: Math.round(picketsMs), unit: 'ms', limit: { atMost: 100 } },
    {
      name: 'condition-matrix-10-km-cold',
      value: Math.round(coldMs),
      unit: 'ms',
      limit: { atMost: 30_000 },
      why: `final tables of every hardness in one thread; ${steps.length} steps told`,
    },
    { name: 'replan-10-km', value: Math.round(shortMs), unit: 'ms', limit: { atMost: 50 } },
    { name: 'replan-100-km', value: Math.round(longMs), unit: 'ms', limit: null },
    { name: 'replan-100-km-to-10-km', value: longMs / shortMs, unit: 'times', limit: { atMost: 15 } },
    { name: 'condition-matrix-10-km', value: Math.round(matrixMs), unit: 'ms', limit: { atMost: 1000 } },
  ];
}

/** A line over glacier and headwalls that repeats every 5 km: a station every 5 m, roughness on it, a summit in the middle. */
function mountain(count: number): GroundProfile {
  let seed = 7;
  const rough = () => (seed = (seed * 16_807) % 2_147_483_647) / 2_147_483_647 - 0.5;
  return profileOf(
    Array.from({ length: count }, (_, i) => {
      const km = (i % 1000) / 200;
      const wallDeg = 26 * Math.exp(-(((km - 2) / 0.15) ** 2)) + 18 * Math.exp(-(((km - 3.6) / 0.2) ** 2));
      return {
        slopeDeg: 9 + 4 * Math.sin(5 * km) + wallDeg + 2 * rough(),
        runOut: km > 1.6 && km < 4 ? 'deadly' : 'gentle',
        sigmaDeg: 1.6,
        down: i > count / 2,
      } as const;
    }),
  );
}
