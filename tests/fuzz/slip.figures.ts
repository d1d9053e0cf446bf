import { variants } from '../../src/core/domain/mode';
import { hardnesses } from '../../src/core/domain/snow';
import { simulateShares } from '../../src/core/slip/shares';
import type { Figure } from '../bench/figure';
import { random, secondShares, usualTeam } from '../core/slip/second-opinion';
import { dry, teamOf } from '../core/slip/teams';

/** Shares by a second program with chance of its own, against the core's: any snow, slope, direction and technique. */
const questions = 60;
const slips = 800;

export default function slipSecondOpinion(): Promise<readonly Figure[]> {
  const next = random(7);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!;
  let [worstUnheld, worstPulled] = [0, 0];
  for (let i = 0; i < questions; i++) {
    const members = pick([
      ['expert', 'solid', 'solid'],
      ['expert', 'learning', 'unreliable'],
      ['solid', 'learning'],
      ['expert', 'unreliable', 'solid', 'learning'],
    ] as const);
    const at = {
      hardness: pick(hardnesses),
      slopeDeg: 12 + 36 * next(),
      betaDeg: pick([0, 20, 45, 59, 60, 75, 90]),
      variant: pick(variants),
    };
    const goingDown = at.variant !== 'running-capture' && next() < 0.5;
    const second = secondShares(usualTeam(...members), { ...at, goingDown }, slips);
    const party = teamOf(...members);
    const core = simulateShares({ ...at, party, snow: dry(at.hardness), goingDown, allDevices: true });
    worstUnheld = Math.max(worstUnheld, Math.abs(core.unheld - second.unheld));
    worstPulled = Math.max(worstPulled, Math.abs(core.leadPulledOff - second.leadPulledOff));
  }
  return Promise.resolve([
    { name: 'slip-second-opinion-unheld', value: worstUnheld, unit: 'of-100', limit: { atMost: 5 } },
    { name: 'slip-second-opinion-lead-pulled-off', value: worstPulled, unit: 'of-100', limit: { atMost: 5 } },
  ]);
}
