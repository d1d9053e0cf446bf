import type { Override, OverrideWay, Project } from '../../core/domain/project';
import type { Plan } from '../../core/domain/segment';

/** The way back that a stretch may be set for. */
export interface WayBack {
  readonly lengthM: number;
  /** Of the other line; null: the team comes back by the same one. */
  readonly otherName: string | null;
}

/** null: no way back is planned. */
export function wayBackOf(
  { alternatives, schedule }: Pick<Project, 'alternatives' | 'schedule'>,
  plan: Plan | null,
): WayBack | null {
  if (!plan?.wayBack || schedule.wayBack === 'none') return null;
  const { wayBack } = schedule;
  const other =
    typeof wayBack === 'string' ? null : alternatives.find(({ id }) => id === wayBack.alternativeId);
  return { lengthM: plan.wayBack.totals.lengthM, otherName: other?.name ?? null };
}

/** What a stretch holds for; nothing to choose where there is one way only. */
export function wayChoices(way: OverrideWay, wayBack: WayBack | null): OverrideWay[] {
  if (wayBack === null) return way === 'both' ? [] : ['both', way];
  if (wayBack.otherName === null) return ['both', 'there', 'back'];
  // What holds on the line there says nothing of another line.
  return way === 'there' ? ['both', 'there', 'back'] : ['both', 'back'];
}

export function wayName(way: OverrideWay, wayBack: WayBack | null): string {
  const other = wayBack?.otherName ?? null;
  if (way === 'there') return 'only on the way there';
  if (way === 'back') return other === null ? 'only on the way back' : `on the way back, ${other}`;
  return other === null ? 'there and back' : 'on the way there';
}

/** The stretch set for another way, within that one's line. */
export function onWay(value: Override, way: OverrideWay, lengthM: number): Override {
  return { ...value, way, fromM: Math.min(value.fromM, lengthM), toM: Math.min(value.toM, lengthM) };
}
