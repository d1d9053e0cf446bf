import type { Figures } from '../core/assumptions/figures';
import type { Note } from '../core/domain/problem';
import type { OwnPace, Project } from '../core/domain/project';
import type { ConditionMatrix, Segment } from '../core/domain/segment';
import type { TrackPoint } from '../core/domain/track';
import type { Afterwards } from '../core/pace/afterwards';
import type { PaceEvent } from '../core/pace/pace-event';
import type { OtherTeam } from '../core/plan/other-teams';
import type { SheetData } from '../core/sheet/sheet-data';
import type { SlipTables } from '../core/slip/tables';
import type { Units } from '../core/wording/units';
import type { PlanColumns } from './plan-columns';
import type { ProfileColumns } from './profile-columns';

export const planFormats = ['gpx', 'geojson', 'segments-csv', 'stations-csv', 'json'] as const;
export type PlanFormat = (typeof planFormats)[number];

export interface OtherTeamTables extends Pick<OtherTeam, 'from' | 'to'> {
  readonly tables: SlipTables;
}

/** The worker that plans. It keeps the ground and the slip tables it was last given: they are large and change rarely. */
export interface PlanCalls {
  setGround: { ask: ProfileColumns; answer: null };
  /** Under the other line by which the team comes back; null: there is none. */
  setWayBackGround: { ask: ProfileColumns | null; answer: null };
  /** Lets go of the tables of other abilities. */
  setTables: { ask: SlipTables; answer: null };
  /** Of the same team a step weaker or stronger: what would flip a segment. */
  setOtherTeams: { ask: readonly OtherTeamTables[]; answer: null };
  /** Of the same team with capture devices, for comparison; null: they are on the rack already. */
  setDeviceTables: { ask: SlipTables | null; answer: null };
  makePlan: {
    ask: { readonly project: Project; readonly figures: Figures; readonly settling: boolean };
    answer: PlanColumns;
  };
  /** How slips end where a segment was decided, by the tables held; on the stations of the plan made last. */
  segmentShares: {
    ask: Pick<Segment, 'decidedAt' | 'snow' | 'goingDown'>;
    answer: Segment['shares'];
  };
  /** How the team moves through the stretch that holds a place, act by act; on the plan made last. */
  teamEvents: {
    ask: { readonly alongM: number; readonly project: Project; readonly figures: Figures };
    answer: readonly PaceEvent[];
  };
  /** A recorded day laid over the plan made last. */
  afterwards: {
    ask: { readonly track: readonly TrackPoint[]; readonly own: OwnPace };
    answer: Afterwards;
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
  /** The whole line under every hardness, without and with capture devices. */
  conditionMatrix: {
    ask: { readonly project: Project; readonly figures: Figures };
    answer: ConditionMatrix;
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
