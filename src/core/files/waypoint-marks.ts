import { markKinds, type Mark } from '../domain/mark';
import type { MarkSeen, Waypoint } from '../domain/track';

const bridges = ['solid', 'doubtful', 'poor'] as const;

/** What a file of ours says of a mark; null where it names none that we know. Whatever else is unusual is left unsaid. */
export function markSeen(said: {
  readonly id: unknown;
  readonly kind: unknown;
  readonly widthM: unknown;
  readonly bridge: unknown;
  readonly seenOn: unknown;
}): MarkSeen | null {
  const kind = markKinds.find((each) => each === said.kind);
  if (kind === undefined || typeof said.id !== 'string' || said.id === '') return null;
  const { widthM, seenOn } = said;
  return {
    id: said.id.slice(0, 100),
    kind,
    widthM: typeof widthM === 'number' && widthM >= 0 && widthM < 1e5 ? widthM : null,
    bridge: bridges.find((each) => each === said.bridge) ?? null,
    seenOn: typeof seenOn === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(seenOn) ? seenOn : null,
  };
}

/** Waypoints as marks: ours as they were, those of one id together; any other as a note with its name. */
export function marksOf(waypoints: readonly Waypoint[], newId: (i: number) => string): Mark[] {
  const marks: Mark[] = [];
  const ours = new Map<string, number>();
  waypoints.forEach((waypoint, i) => {
    const { mark, position, note } = waypoint;
    const sofar = mark ? ours.get(mark.id) : undefined;
    const before = sofar === undefined ? undefined : marks[sofar];
    if (sofar !== undefined && before) {
      marks[sofar] = { ...before, positions: [...before.positions, position] };
      return;
    }
    if (mark) ours.set(mark.id, marks.length);
    marks.push(
      mark
        ? { ...mark, id: newId(i), positions: [position], note }
        : {
            id: newId(i),
            kind: 'note',
            positions: [position],
            widthM: null,
            bridge: null,
            seenOn: null,
            note: [waypoint.name, note].filter((words) => words !== '').join(': '),
          },
    );
  });
  return marks;
}
