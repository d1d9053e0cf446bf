import type { Figures } from '../core/assumptions/figures';
import type { Project } from '../core/domain/project';
import type { Plan } from '../core/domain/segment';
import type { GroundProfile } from '../core/domain/station';
import { planGeoJson } from '../core/files/geojson-write';
import { planGpx } from '../core/files/gpx-write';
import { segmentsCsv, stationsCsv } from '../core/files/plan-csv';
import type { PlanExport } from '../core/files/plan-export';
import { planJson } from '../core/files/plan-json';
import { conditionMatrix, wayBackMatrix } from '../core/plan/condition-matrix';
import { afterwards } from '../core/pace/afterwards';
import { eventsOnLine } from '../core/pace/on-line';
import { paceStretch } from '../core/pace/stretch';
import { makePlan } from '../core/plan/make-plan';
import { planStretches } from '../core/plan/plan-stretches';
import type { OtherAbility } from '../core/plan/sensitivity';
import { segmentShares } from '../core/plan/segment-shares';
import { lookupIn } from '../core/plan/slip-lookup';
import { makeSheet } from '../core/sheet/make-sheet';
import type { SlipTables } from '../core/slip/tables';
import type { PlanCalls, PlanFormat } from './plan-calls';
import { packPlan, planBuffers } from './plan-columns';
import { unpackProfile } from './profile-columns';
import { Moved, type Port } from './protocol';
import { holdLife, serve } from './serve';

let ground: GroundProfile | null = null;
let wayBackGround: GroundProfile | null = null;
let tables: SlipTables | null = null;
let otherAbilities: readonly OtherAbility[] = [];
let last: Plan | null = null;
let deviceTables: SlipTables | null = null;

function given() {
  if (!ground || !tables) throw new Error('Asked for a plan before ground and slip tables were there');
  return { profile: ground, tables, otherAbilities, ...(wayBackGround && { wayBackProfile: wayBackGround }) };
}

function lastPlan(): Plan {
  if (!last) throw new Error('Asked about a plan before there was one');
  return last;
}

function planOf(project: Project, figures: Figures, settling: boolean): Plan {
  return makePlan({ ...given(), project, figures, settling });
}

/** The plan with the modes under every snow. */
function wholePlan(project: Project, figures: Figures, onProgress: (done: number) => void) {
  const plan = planOf(project, figures, false);
  const devices = deviceTables === null ? {} : { deviceTables };
  const asked = { ...given(), project, figures, ...devices };
  const matrix = conditionMatrix({ ...asked, plan, onProgress });
  return { plan, matrix, asked };
}

const writers: Readonly<Record<PlanFormat, (all: PlanExport) => string>> = {
  gpx: ({ project, plan }) => planGpx(project, plan),
  geojson: ({ project, plan }) => planGeoJson(project, plan),
  'segments-csv': segmentsCsv,
  'stations-csv': stationsCsv,
  json: planJson,
};

holdLife(self.name);
serve<PlanCalls>(self as unknown as Port, {
  setGround(columns) {
    ground = unpackProfile(columns);
    return null;
  },
  setWayBackGround(columns) {
    wayBackGround = columns && unpackProfile(columns);
    return null;
  },
  setTables(built) {
    tables = built;
    otherAbilities = [];
    return null;
  },
  setOtherTeams(teams) {
    otherAbilities = teams.map(({ from, to, tables: built }) => ({ from, to, lookup: lookupIn(built) }));
    return null;
  },
  setDeviceTables(built) {
    deviceTables = built;
    return null;
  },
  makePlan({ project, figures, settling }) {
    const plan = planOf(project, figures, settling);
    last = plan;
    const columns = packPlan(plan, given().profile.stations);
    return new Moved(columns, planBuffers(columns));
  },
  segmentShares: (segment) => segmentShares(segment, lastPlan().stations, given().tables),
  teamEvents({ alongM, project, figures }) {
    const stretch = planStretches(lastPlan(), project, figures).find(
      ({ fromM, toM }) => alongM >= fromM && alongM < toM,
    );
    if (stretch === undefined) return [];
    const { events } = paceStretch({ ...stretch, withEvents: true });
    return eventsOnLine(events, stretch.stations, stretch.fromM);
  },
  afterwards: ({ track, own }) => afterwards(track, { ...lastPlan(), own }),
  makeSheet({ project, figures, units, madeAt }, { progress }) {
    const { plan, matrix, asked } = wholePlan(project, figures, progress);
    const { terrain } = asked.profile;
    const back = wayBackMatrix(plan, asked);
    return makeSheet({ plan, project, terrain, matrix, wayBackMatrix: back, units, madeAt });
  },
  conditionMatrix: ({ project, figures }, { progress }) => wholePlan(project, figures, progress).matrix,
  writePlan({ project, figures, notes, format }, { progress }) {
    const { plan, matrix, asked } = wholePlan(project, figures, progress);
    return writers[format]({ project, plan, terrain: asked.profile.terrain, notes, matrix });
  },
});
