import type { Figures } from '../core/assumptions/figures';
import type { Note } from '../core/domain/problem';
import type { Project } from '../core/domain/project';
import type { SheetData } from '../core/sheet/sheet-data';
import type { SlipTables } from '../core/slip/tables';
import type { Units } from '../core/wording/units';
import type { PlanColumns } from './plan-columns';
import type { ProfileColumns } from './profile-columns';

export const planFormats = ['gpx', 'geojson', 'segments-csv', 'stations-csv', 'json'] as const;
export type PlanFormat = (typeof planFormats)[number];

/** The worker that plans. It keeps the ground and the slip tables it was last given: they are large and change rarely. */
export interface PlanCalls {
  setGround: { ask: ProfileColumns; answer: null };
  setTables: { ask: SlipTables; answer: null };
  /** Of the same team with capture devices, for comparison; null: they are on the rack already. */
  setDeviceTables: { ask: SlipTables | null; answer: null };
  makePlan: {
    ask: { readonly project: Project; readonly figures: Figures; readonly settling: boolean };
    answer: PlanColumns;
  };
  /** The sheet of the plan, with the modes under every snow the tables know. */
  makeSheet: {
    ask: {
      readonly project: Project;
      readonly figures: Figures;
      readonly units: Units;
      readonly madeAt: string;
    };
    answer: SheetData;
  };
  /** The plan of this project as a file's text, made anew from what the worker holds. */
  writePlan: {
    ask: {
      readonly project: Project;
      readonly figures: Figures;
      readonly notes: readonly Note[];
      readonly format: PlanFormat;
    };
    answer: string;
  };
}
