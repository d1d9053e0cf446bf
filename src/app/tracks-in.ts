import type { LngLat } from '../core/domain/coordinates';
import type { ReadTracks } from '../worker/ground-calls';
import { stuckAfterMs, type Ask } from './asking';
import { activateLine, addNotes, startElsewhere } from './edits';
import type { Session } from './session.svelte';

type ReadLine = ReadTracks['lines'][number];

/** Tracks in: which line of the file, to plan or to compare, and what was done to it. */
export class TracksIn {
  constructor(
    readonly session: Session,
    readonly ask: Ask,
    readonly isNearDemo: (places: readonly LngLat[]) => boolean,
  ) {}

  async openFile(file: File, signal: AbortSignal, onProgress: (done: number) => void): Promise<void> {
    const { session } = this;
    const { name } = file;
    const read = await session.engines.ground.ask(
      'readTrack',
      { file, name },
      { signal, onProgress, stuckAfterMs },
    );
    for (const note of read.notes) session.say({ note });
    const picked = await this.#pick(read);
    if (picked && (await this.#isTheDay(picked, name))) {
      session.recorded = { name, points: picked.line.points };
      session.say({ note: { code: 'APP-104', subject: name, text: 'laid over the plan: see What if' } });
    } else if (picked) {
      const { line } = picked;
      const edit = activateLine(`open ${name}`, line);
      const isFar = !this.isNearDemo(line.points.map(({ position }) => position));
      session.edit(isFar ? startElsewhere(line.name, edit) : edit);
      this.#tellOf(picked, name);
    }
    const { waypoints } = read;
    if (waypoints.length > 0)
      session.say({
        note: { code: 'APP-101', subject: name, text: `${waypoints.length} waypoints` },
        action: { label: 'Take over as marks', run: () => session.edit(addNotes(waypoints)) },
      });
  }

  async #pick({ lines, fileName }: ReadTracks): Promise<ReadLine | null> {
    if (lines.length < 2) return lines[0] ?? null;
    const answer = await this.ask({
      title: `${fileName} holds ${lines.length} lines.`,
      detail: 'Which one is to be planned?',
      choices: lines.map(({ line, kind }, i) => ({
        value: String(i),
        label: `${line.name || `${kind} ${i + 1}`}, ${line.points.length} points`,
      })),
      typed: false,
    });
    return answer === null ? null : (lines[Number(answer)] ?? null);
  }

  /** A timed track near the present plan may be the day itself: the guide says which. */
  async #isTheDay({ line }: ReadLine, name: string): Promise<boolean> {
    const { plan } = this.session;
    const isTimed = line.points.filter(({ timeMs }) => timeMs !== null).length > line.points.length / 2;
    if (!plan || !isTimed || !isNear(line.points, plan.stations)) return false;
    const answer = await this.ask({
      title: `${name} has times.`,
      detail: 'Is it a line to plan, or the day as it was?',
      choices: [
        { value: 'plan', label: 'A line to plan' },
        { value: 'day', label: 'The day as it was' },
      ],
      typed: false,
    });
    return answer === 'day';
  }

  /** What was done to the track to make one line of it. */
  #tellOf({ gaps, dropped }: ReadLine, subject: string): void {
    const { session } = this;
    const tell = (code: string, text: string) => session.say({ note: { code, subject, text } });
    if (dropped.length > 0) tell('APP-102', `${dropped.length} repeated or unusable points left out`);
    if (gaps.length > 0)
      tell(
        'APP-103',
        `${gaps.length} gaps in the record are crossed by straight pieces: check them on the map`,
      );
  }
}

type Placed = readonly { readonly position: LngLat }[];

/** Whether the middle of the one lies within about a kilometre of the other. */
function isNear(a: Placed, b: Placed): boolean {
  const middle = a[Math.floor(a.length / 2)]?.position;
  if (!middle) return false;
  const perDeg = Math.cos((middle[1] * Math.PI) / 180);
  return b.some(
    ({ position }) => Math.hypot((position[0] - middle[0]) * perDeg, position[1] - middle[1]) < 0.01,
  );
}
