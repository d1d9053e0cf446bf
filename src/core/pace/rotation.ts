/** Acts at one moment: what happens within this distance overlaps. */
export const sameMomentM = 0.5;
/** Distances that differ by rounding only. */
const roundingM = 1e-6;

/** The rope team on a running belay, as far as its movement depends on it. */
export interface RopeTeam {
  readonly climbers: number;
  /** Rope between neighbours, m. */
  readonly intervalM: number;
  /** Between pieces, m; at most the interval. */
  readonly spacingM: number;
  /** Pieces carry rope capture devices. */
  readonly captureDevices: boolean;
}

/** One climber busy with a piece. `at` is where that piece stands, metres from the rotation's start. */
export interface Task {
  readonly who: number;
  readonly what: 'place' | 'clip' | 'remove';
  readonly atM: number;
  /** Pieces worked on, one after the other. */
  readonly pieces: number;
  readonly onDevice: boolean;
}

/** Everybody walks until the lead (or, gathering, the last) has gone `walkM` further. */
export type Step =
  | { readonly kind: 'lead'; readonly walkM: number }
  | { readonly kind: 'gather'; readonly walkM: number }
  | { readonly kind: 'stance' }
  | { readonly kind: 'tasks'; readonly tasks: readonly Task[]; readonly gathering: boolean };

/** How many pieces the rotation's first and last standing place have. */
export interface StandingPieces {
  readonly atStart: number;
  readonly atEnd: number;
}

/** Where climber `who` stands when the lead is at `leadM`. */
export const climberM = (team: RopeTeam, who: number, leadM: number): number =>
  Math.max(0, leadM - who * team.intervalM);

/** Where the lead places pieces after the start, the standing place at the end included. */
export function pieceDistancesM(team: RopeTeam, lengthM: number): number[] {
  const pieces: number[] = [];
  for (let k = 1; k * team.spacingM < lengthM - sameMomentM; k++) pieces.push(k * team.spacingM);
  pieces.push(lengthM);
  return pieces;
}

/**
 * One rotation of a running belay, from a team gathered on a piece to the team gathered on the next: the lead goes out,
 * placing; middles clip past, the last removes; at the end a stance, and the others walk up together.
 *
 * Tasks at the same moment overlap and all stand meanwhile. A rotation that ends off the spacing gets its last piece after
 * the tasks of that moment. One shorter than the rope team leaves its first piece after the stance.
 */
export function rotationSteps(team: RopeTeam, lengthM: number, standing: StandingPieces): Step[] {
  const last = team.climbers - 1;
  const pieces = pieceDistancesM(team, lengthM);
  const inner = pieces.slice(0, -1);
  const endsOnSpacing = Math.abs(pieces.length * team.spacingM - lengthM) <= sameMomentM;
  const task = (who: number, what: Task['what'], atM: number, count = 1): Task => {
    const onDevice = what === 'clip' && team.captureDevices;
    return { who, what, atM, pieces: count, onDevice };
  };
  const steps: Step[] = [];

  // The lead goes out: every task by where the lead then is.
  const due: { leadM: number; task: Task }[] = [];
  for (const atM of inner) {
    due.push({ leadM: atM, task: task(0, 'place', atM) });
    for (let who = 1; who < last; who++) {
      due.push({ leadM: atM + who * team.intervalM, task: task(who, 'clip', atM) });
    }
    due.push({ leadM: atM + last * team.intervalM, task: task(last, 'remove', atM) });
  }
  due.push({ leadM: last * team.intervalM, task: task(last, 'remove', 0, standing.atStart) });
  if (endsOnSpacing) due.push({ leadM: lengthM, task: task(0, 'place', lengthM) });
  const inTime = due.filter(({ leadM }) => leadM <= lengthM + roundingM).sort((a, b) => a.leadM - b.leadM);

  let leadM = 0;
  const goTo = (targetM: number) => {
    if (targetM - leadM > roundingM) steps.push({ kind: 'lead', walkM: targetM - leadM });
    leadM = Math.max(leadM, targetM);
  };
  for (let i = 0; i < inTime.length;) {
    const momentM = inTime[i]!.leadM;
    const tasks: Task[] = [];
    for (; (inTime[i]?.leadM ?? Infinity) <= momentM + sameMomentM; i++) tasks.push(inTime[i]!.task);
    goTo(momentM);
    steps.push({ kind: 'tasks', tasks, gathering: false });
  }
  goTo(lengthM);
  if (!endsOnSpacing) steps.push({ kind: 'tasks', tasks: [task(0, 'place', lengthM)], gathering: false });

  // Stance, then the others walk up: every task by how far they have then walked.
  steps.push({ kind: 'stance' });
  const lastM = climberM(team, last, lengthM);
  if (last * team.intervalM > lengthM + roundingM) {
    steps.push({ kind: 'tasks', tasks: [task(last, 'remove', 0, standing.atStart)], gathering: true });
  }
  const met: { walkedM: number; task: Task }[] = [];
  for (let who = 1; who <= last; who++) {
    const fromM = climberM(team, who, lengthM);
    for (const atM of inner) {
      if (atM <= fromM + roundingM) continue;
      met.push({ walkedM: atM - fromM, task: task(who, who === last ? 'remove' : 'clip', atM) });
    }
  }
  met.sort((a, b) => a.walkedM - b.walkedM);
  let walkedM = 0;
  for (let i = 0; i < met.length;) {
    const momentM = met[i]!.walkedM;
    const tasks: Task[] = [];
    for (; (met[i]?.walkedM ?? Infinity) <= momentM + sameMomentM; i++) tasks.push(met[i]!.task);
    steps.push({ kind: 'gather', walkM: momentM - walkedM }, { kind: 'tasks', tasks, gathering: true });
    walkedM = momentM;
  }
  if (lengthM - lastM - walkedM > roundingM) steps.push({ kind: 'gather', walkM: lengthM - lastM - walkedM });

  // The second piece of a standing place is set once the last has brought the pieces up.
  if (standing.atEnd > 1) {
    const extra = task(0, 'place', lengthM, standing.atEnd - 1);
    steps.push({ kind: 'tasks', tasks: [extra], gathering: true });
  }
  return steps;
}
