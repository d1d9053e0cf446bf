import { makePlan } from '../core/plan/make-plan';
import type { GroundProfile } from '../core/domain/station';
import type { SlipTables } from '../core/slip/tables';
import type { PlanCalls } from './plan-calls';
import { packPlan, planBuffers } from './plan-columns';
import { unpackProfile } from './profile-columns';
import { Moved, type Port } from './protocol';
import { holdLife, serve } from './serve';

let ground: GroundProfile | null = null;
let tables: SlipTables | null = null;

holdLife(self.name);
serve<PlanCalls>(self as unknown as Port, {
  setGround(columns) {
    ground = unpackProfile(columns);
    return null;
  },
  setTables(built) {
    tables = built;
    return null;
  },
  makePlan({ project, figures, settling }) {
    if (!ground || !tables) throw new Error('Asked for a plan before ground and slip tables were there');
    const plan = makePlan({ profile: ground, project, figures, tables, settling });
    const columns = packPlan(plan, ground.stations);
    return new Moved(columns, planBuffers(columns));
  },
});
