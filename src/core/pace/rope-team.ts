import type { Variant } from '../domain/mode';
import type { Party } from '../domain/rope-team';
import type { RunningBelayOptions } from './belay-options';

/** Distance between pieces on a running belay: one or two for each interval. */
export const spacingM = (variant: Variant, { rope }: Party): number =>
  variant === 'running-double' ? rope.intervalM / 2 : rope.intervalM;

export const isRunning = (
  variant: Variant | null,
): variant is 'running' | 'running-capture' | 'running-double' =>
  variant === 'running' || variant === 'running-capture' || variant === 'running-double';

/** The party as a rope team on a running belay; null where it cannot be one. */
export function runningTeam(
  variant: Variant,
  party: Party,
): Pick<RunningBelayOptions, 'climbers' | 'intervalM' | 'spacingM' | 'pickets' | 'captureDevices'> | null {
  const { climbers, rope, rack } = party;
  const captureDevices = variant === 'running-capture' ? rack.captureDevices : 0;
  if (climbers.length < 2 || rack.pickets < 2) return null;
  if (variant === 'running-capture' && captureDevices < 1) return null;
  return {
    climbers: climbers.length,
    intervalM: rope.intervalM,
    spacingM: spacingM(variant, party),
    pickets: rack.pickets,
    captureDevices,
  };
}

/** The last takes the lead where the team wants it and that climber may. */
export const lastMayLead = ({ climbers }: Party, wanted: boolean): boolean =>
  wanted && climbers.at(-1)?.mayLead === true;
