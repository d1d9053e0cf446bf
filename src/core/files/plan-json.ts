import type { Override } from '../domain/project';
import type { ConditionMatrix, Plan, Segment, TimeSpan, Totals } from '../domain/segment';
import { paintedBack, paintedThere } from '../plan/way';
import { layOutJson } from './json-layout';
import { decimals, rounded } from './number-text';
import { planStations, type PlanExport } from './plan-export';

export const planFormat = 'firnward-plan';
export const planVersion = 1;

const metres = (value: number | null) => rounded(value, decimals.metres);
const angle = (value: number | null) => rounded(value, decimals.angle);
const seconds = (value: number | null) => rounded(value, decimals.seconds);
const lonLat = ([lon, lat]: readonly [number, number]) => ({
  lon: rounded(lon, decimals.lngLat),
  lat: rounded(lat, decimals.lngLat),
});
const span = (time: TimeSpan | null) =>
  time === null
    ? null
    : { low: seconds(time.lowS), default: seconds(time.defaultS), high: seconds(time.highS) };

/** The plan for other programs: SI units, degrees, unknown is null. */
export function planJson(of: PlanExport): string {
  return layOutJson(planValue(of));
}

/** The same as a plain value. */
export function planValue({ project, plan, terrain, notes, matrix }: PlanExport) {
  const { totals } = plan;
  return {
    format: planFormat,
    version: planVersion,
    line: {
      name: project.line.name,
      lengthM: metres(totals.lengthM),
      ascentM: metres(totals.ascentM),
      descentM: metres(totals.descentM),
    },
    ...partValue(plan, paintedThere(project)),
    wayBack:
      plan.wayBack === null
        ? null
        : {
            ...partValue(plan.wayBack, paintedBack(project, plan.wayBack.totals.lengthM)),
            warnings: warningValues(plan.wayBack),
          },
    matrix: matrix === null ? null : matrixValue(matrix),
    terrain,
    warnings: [
      ...warningValues(plan),
      ...notes.map(({ code, subject, text }) => ({
        code,
        weight: 1,
        text: `${subject}: ${text}`,
        fromM: null,
        toM: null,
      })),
    ],
    assumptions: project.assumptions,
  };
}

/** One way of the day: its stations, segments and totals. */
function partValue(plan: Plan, painted: readonly Override[]) {
  return {
    stations: stationValues(plan, painted),
    segments: plan.segments.map(segmentValue),
    totals: totalValue(plan.totals),
  };
}

const warningValues = (plan: Plan) =>
  plan.warnings.map((warning) => ({ ...warning, fromM: metres(warning.fromM), toM: metres(warning.toM) }));

const matrixValue = ({ columns }: ConditionMatrix) => ({
  columns: columns.map((column) => ({
    ...column,
    cells: column.cells.map((cell) => ({
      ...cell,
      parts: cell.parts.map((part) => ({ ...part, fromM: metres(part.fromM), toM: metres(part.toM) })),
    })),
    totals: totalValue(column.totals),
  })),
});

const stationValues = (plan: Plan, painted: readonly Override[]) =>
  planStations(plan, painted).map(({ station, segment, runOut }) => ({
    distanceM: metres(station.alongM),
    ...lonLat(station.position),
    elevationM: metres(station.elevationM),
    slopeDeg: angle(station.slopeDeg),
    designSlopeDeg: angle(station.designSlopeDeg),
    slopeSigmaDeg: angle(station.slopeSigmaDeg),
    aspectDeg: angle(station.aspectDeg),
    gradeDeg: angle(station.gradeDeg),
    betaDeg: angle(station.betaDeg),
    runOut,
    mode: segment.mode,
    segment: segment.id,
  }));

function segmentValue(segment: Segment) {
  return {
    id: segment.id,
    fromM: metres(segment.fromM),
    toM: metres(segment.toM),
    lengthM: metres(segment.lengthM),
    ascentM: metres(segment.ascentM),
    descentM: metres(segment.descentM),
    slopeMeanDeg: angle(segment.slopeMeanDeg),
    slopeMaxDeg: angle(segment.slopeMaxDeg),
    designSlopeMaxDeg: angle(segment.designSlopeMaxDeg),
    aspectDeg: angle(segment.aspectDeg),
    runOut: segment.runOut,
    snow: segment.snow,
    mode: segment.mode,
    variant: segment.variant,
    overridden: segment.overridden,
    snowChanged: segment.snowChanged,
    goingDown: segment.goingDown,
    reasons: segment.reasons,
    decidedAt: {
      distanceM: metres(segment.decidedAt.alongM),
      designSlopeDeg: angle(segment.decidedAt.designSlopeDeg),
      runOut: segment.decidedAt.runOut,
      tolerancePct: segment.decidedAt.tolerancePct,
    },
    flips: segment.flips,
    timeS: span(segment.time),
    pieces: segment.pieces.map(({ alongM, position, placement, captureDevice }) => ({
      distanceM: metres(alongM),
      ...lonLat(position),
      placement,
      captureDevice,
    })),
    gatherings: segment.gatherings.map(({ alongM, position, pieces, reason }) => ({
      distanceM: metres(alongM),
      ...lonLat(position),
      pieces,
      reason,
    })),
    rotations: segment.rotations,
    pitches: segment.pitches,
    arrive: segment.arrive,
    leave: segment.leave,
    note: segment.note,
  };
}

function totalValue(totals: Totals) {
  const byMode = Object.entries(totals.byMode).map(([mode, { lengthM, timeS }]) => [
    mode,
    { lengthM: metres(lengthM), timeS: seconds(timeS) },
  ]);
  return {
    timeS: span(totals.time),
    notComputedBeyondM: metres(totals.notComputedBeyondM),
    byMode: Object.fromEntries(byMode) as Record<string, { lengthM: number | null; timeS: number | null }>,
    walkingS: seconds(totals.parts.walkingS),
    placementS: seconds(totals.parts.placementS),
    gatheringS: seconds(totals.parts.gatheringS),
    pitchingS: seconds(totals.parts.pitchingS),
    crossingS: seconds(totals.parts.crossingS),
    transitionS: seconds(totals.parts.transitionS),
    gatherings: totals.gatherings,
    rotations: totals.rotations,
    pitches: totals.pitches,
    crossings: totals.crossings,
    pieces: totals.pieces,
    pickets: totals.pickets,
    captureDevices: totals.captureDevices,
    arrive: totals.arrive,
    turnRound: totals.turnRound,
  };
}
