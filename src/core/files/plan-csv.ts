import { paintedThere } from '../plan/way';
import { csv, number, text } from './csv';
import { decimals } from './number-text';
import { planStations, type PlanExport } from './plan-export';

const segmentHeader = [
  ...[
    'id',
    'from_m',
    'to_m',
    'length_m',
    'ascent_m',
    'descent_m',
    'slope_mean_deg',
    'slope_max_deg',
    'aspect_deg',
  ],
  ...['run_out', 'hardness', 'wetness', 'mode', 'variant', 'overridden', 'time_low_s', 'time_default_s'],
  ...['time_high_s', 'pieces', 'gatherings', 'rotations', 'pitches', 'arrive', 'leave', 'reasons', 'note'],
];

/** One record per segment. Empty: unknown. */
export function segmentsCsv({ plan }: Pick<PlanExport, 'plan'>): string {
  const metres = (value: number | null) => number(value, decimals.metres);
  const angle = (value: number | null) => number(value, decimals.angle);
  const seconds = (value: number | undefined) => number(value, decimals.seconds);
  return csv(segmentHeader, plan.segments, (segment) => [
    ...[number(segment.id, 0), metres(segment.fromM), metres(segment.toM), metres(segment.lengthM)],
    ...[metres(segment.ascentM), metres(segment.descentM)],
    ...[angle(segment.slopeMeanDeg), angle(segment.slopeMaxDeg), angle(segment.aspectDeg)],
    ...[segment.runOut, segment.snow.hardness, segment.snow.wetness, segment.mode].map(text),
    ...[text(segment.variant), text(segment.overridden ? 'yes' : 'no')],
    ...[seconds(segment.time?.lowS), seconds(segment.time?.defaultS), seconds(segment.time?.highS)],
    ...[number(segment.pieces.length, 0), number(segment.gatherings.length, 0)],
    ...[number(segment.rotations, 0), number(segment.pitches, 0), text(segment.arrive), text(segment.leave)],
    ...[text(segment.reasons.join('; ')), text(segment.note)],
  ]);
}

const stationHeader = [
  ...[
    'distance_m',
    'lon',
    'lat',
    'elevation_m',
    'slope_deg',
    'design_slope_deg',
    'slope_sigma_deg',
    'aspect_deg',
  ],
  ...['curvature_per_m', 'grade_deg', 'beta_deg', 'run_out', 'mode', 'variant', 'segment', 'reason'],
];

/** One record per station. Empty: unknown. */
export function stationsCsv({ plan, project }: Pick<PlanExport, 'plan' | 'project'>): string {
  const angle = (value: number | null) => number(value, decimals.angle);
  return csv(
    stationHeader,
    planStations(plan, paintedThere(project)),
    ({ station, decision, segment, runOut }) => [
      number(station.alongM, decimals.metres),
      ...station.position.map((deg) => number(deg, decimals.lngLat)),
      number(station.elevationM, decimals.metres),
      ...[angle(station.slopeDeg), angle(station.designSlopeDeg), angle(station.slopeSigmaDeg)],
      angle(station.aspectDeg),
      number(station.curvaturePerM, decimals.curvature),
      ...[angle(station.gradeDeg), angle(station.betaDeg), text(runOut)],
      ...[text(segment.mode), text(segment.variant), number(segment.id, 0), text(decision.reason)],
    ],
  );
}
