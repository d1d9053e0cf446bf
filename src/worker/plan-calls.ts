import type { Figures } from '../core/assumptions/figures';
import type { Project } from '../core/domain/project';
import type { SlipTables } from '../core/slip/tables';
import type { PlanColumns } from './plan-columns';
import type { ProfileColumns } from './profile-columns';

/** The worker that plans. It keeps the ground and the slip tables it was last given: they are large and change rarely. */
export interface PlanCalls {
  setGround: { ask: ProfileColumns; answer: null };
  setTables: { ask: SlipTables; answer: null };
  makePlan: {
    ask: { readonly project: Project; readonly figures: Figures; readonly settling: boolean };
    answer: PlanColumns;
  };
}
