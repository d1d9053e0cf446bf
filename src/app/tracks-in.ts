import type { LngLat } from '../core/domain/coordinates';
import type { Line } from '../core/domain/project';
import type { Waypoint } from '../core/domain/track';
import { heightsFromFeet, isSameLine, lookOfHeights } from '../core/line/track-against-ground';
import { lengthText } from '../core/wording/numbers';
import type { ReadTracks } from '../worker/ground-calls';
import { openAsking, stuckAfterMs, type Ask } from './asking';
import { activateLine, addNotes, drawnPoint, newId, startElsewhere } from './edits';
import { feetDoubt, gapDoubt, jumpDoubt, swapDoubt, type Doubt } from './line-doubts';
import type { Session } from './session.svelte';

const dayMs = 86_400_000;
const tomorrowText =
  'has times that lie in the future: the clock of the recorder or of this device is wrong. Nothing is reckoned from it but the day read back afterwards.';

/** More than a day ahead of this device's clock, which leaves room for zones taken for one another. */
const isOfTomorrow = ({ lines }: ReadTracks): boolean =>
  lines.some(({ line }) => line.points.some(({ timeMs }) => timeMs !== null && timeMs > Date.now() + dayMs));

type ReadLine = ReadTracks['lines'][number];

/** Tracks in: which line of the file, to plan or to compare, what is doubtful about it, and what was done to it. */
export class TracksIn {
  constructor(
    readonly session: Session,
    readonly ask: Ask,
    readonly isNearDemo: (places: readonly LngLat[]) => boolean,
  ) {}

  async openFile(file: File, signal: AbortSignal, onProgress: (done: number) => void): Promise<void> {
    const { session } = this;
    const { name } = file;
    const options = { signal, onProgress, stuckAfterMs };
    const read = await openAsking(this.ask, (answers) =>
      session.engines.ground.ask('readTrack', { file, name, answers }, options),
    );
    for (const note of read.notes) session.voice.say({ note });
    if (isOfTomorrow(read)) this.#tell('APP-107', name, tomorrowText);
    const { waypoints } = read;
    if (read.lines.length === 0) return this.#waypointsOnly(waypoints, name);
    const picked = await this.#pick(read);
    if (picked === null) return;
    const lines = await this.#cleared(picked);
    const [line, ...more] = lines ?? [];
    if (line === undefined) return;
    const use = more.length === 0 ? await this.#useOf(line, name) : 'plan';
    if (use === null) return;
    if (use === 'day') {
      session.recorded = { name, points: line.points };
      this.#tell('APP-104', name, 'laid over the plan: see On the way');
    } else {
      const wanted = await this.#onceOrTwice(line, name);
      if (wanted === null) return;
      this.#use(wanted, more, name);
      this.#tellOf(picked, more.length > 0, name);
    }
    if (waypoints.length > 0)
      session.voice.say({
        note: { code: 'APP-101', subject: name, text: `${waypoints.length} waypoints` },
        action: { label: 'Take over as marks', run: () => session.edit(addNotes(waypoints)) },
      });
  }

  #use(line: Line, more: readonly Line[], fileName: string): void {
    const edit = activateLine(`open ${fileName}`, line, more);
    const isFar = !this.isNearDemo(line.points.map(({ position }) => position));
    this.session.edit(isFar ? startElsewhere(line.name, edit) : edit);
  }

  /** Places without an order of their own: whoever made the file may have meant one, or none. */
  async #waypointsOnly(waypoints: readonly Waypoint[], name: string): Promise<void> {
    const points = waypoints.map(({ position, elevationM }) => ({ ...drawnPoint(position), elevationM }));
    const answer = await this.ask({
      title: `${name} holds ${waypoints.length} waypoints and no line.`,
      detail: 'Nothing says that they follow each other.',
      choices: [
        { value: 'marks', label: 'Take them over as marks' },
        ...(points.length > 1
          ? [{ value: 'join', label: 'Join them to a line, in the order of the file' }]
          : []),
      ],
      typed: false,
    });
    if (answer === 'marks') this.session.edit(addNotes(waypoints));
    if (answer === 'join') this.#use({ id: newId(), name, points }, [], name);
  }

  async #pick({ lines, fileName }: ReadTracks): Promise<ReadLine | null> {
    if (lines.length < 2) return lines[0] ?? null;
    const answer = await this.ask({
      title: `${fileName} holds ${lines.length} lines.`,
      detail: 'Which one is to be planned?',
      choices: lines.map(({ inWords }, i) => ({ value: String(i), label: inWords })),
      typed: false,
    });
    return answer === null ? null : (lines[Number(answer)] ?? null);
  }

  /** The line, once the guide has said what only they can know; several where it was parted; null: not to be opened. */
  async #cleared({ line, gaps }: ReadLine): Promise<readonly Line[] | null> {
    const { units, terrain } = this.session;
    // Gaps are known by the places of their points in the line: what changes their number comes after them.
    const steps: readonly ((of: Line) => Promise<Doubt | null> | Doubt | null)[] = [
      (of) => swapDoubt(of, terrain),
      (of) => this.#heightDoubt(of),
      (of) => gapDoubt(of, gaps, units),
      (of) => jumpDoubt(of, units),
    ];
    let lines: readonly Line[] = [line];
    for (const step of steps) {
      const settled: Line[] = [];
      for (const of of lines) {
        const doubt = await step(of);
        const answer = doubt && (await this.ask(doubt.choice));
        if (doubt && answer === null) return null;
        settled.push(...(doubt?.lines[answer ?? '']?.() ?? [of]));
      }
      lines = settled;
    }
    return lines.toSorted((a, b) => b.points.length - a.points.length);
  }

  /** Compares a sample of the track's own elevations with the ground's; another height reference is only told. */
  async #heightDoubt(line: Line): Promise<Doubt | null> {
    const { session } = this;
    const step = Math.max(1, Math.floor(line.points.length / 200));
    const sample = line.points.filter(({ elevationM }, i) => i % step === 0 && elevationM !== null);
    if (sample.length === 0 || session.terrain.length === 0) return null;
    const groundM = await session.engines.ground.ask('elevationsAt', {
      positions: sample.map(({ position }) => position),
      rasterKeys: session.terrain.map(({ key }) => key),
    });
    const look = lookOfHeights(
      sample.map(({ elevationM }, i) => ({ fileM: elevationM, groundM: groundM[i] ?? null })),
    );
    if (look.kind === 'offset')
      this.#tell(
        'APP-105',
        line.name,
        `its elevations and the ground's differ by ${lengthText(look.offsetM, session.units)} on average: another height reference? The ground's are used`,
      );
    return feetDoubt(line, look, heightsFromFeet(line.points));
  }

  /** The line to plan: the one that stands among the alternatives already, or the file's beside it; null: neither. */
  async #onceOrTwice(line: Line, name: string): Promise<Line | null> {
    const { project } = this.session;
    const isPlanned = project !== null && isSameLine(project.line, line);
    const kept = project?.alternatives.find((open) => isSameLine(open, line));
    if (!isPlanned && !kept) return line;
    const answer = await this.ask({
      title: `The line of ${name} is open already.`,
      detail: 'The same places in the same order.',
      choices: [
        ...(kept && !isPlanned ? [{ value: 'kept', label: `Plan it: ${kept.name}` }] : []),
        { value: 'again', label: 'Open it again, beside the first' },
      ],
      typed: false,
    });
    if (answer === 'kept') return kept ?? null;
    return answer === 'again' ? line : null;
  }

  /** A timed track near the present plan may be the day itself: the guide says which. null: it is not to be opened. */
  async #useOf({ points }: Line, name: string): Promise<'plan' | 'day' | null> {
    const { plan } = this.session;
    const isTimed = points.filter(({ timeMs }) => timeMs !== null).length > points.length / 2;
    if (!plan || !isTimed || !isNear(points, plan.stations)) return 'plan';
    const answer = await this.ask({
      title: `${name} has times.`,
      detail: 'Is it a line to plan, or the day as it was?',
      choices: [
        { value: 'plan', label: 'A line to plan' },
        { value: 'day', label: 'The day as it was' },
      ],
      typed: false,
    });
    return answer === 'plan' || answer === 'day' ? answer : null;
  }

  /** What was done to the track to make one line of it, and what a line does not keep. */
  #tellOf({ gaps, dropped, extensionCount }: ReadLine, isParted: boolean, name: string): void {
    if (dropped.length > 0)
      this.#tell('APP-102', name, `${dropped.length} repeated or unusable points left out`);
    if (gaps.length > 0 && !isParted)
      this.#tell(
        'APP-103',
        name,
        `${gaps.length} gaps in the record are crossed by straight pieces: check them on the map`,
      );
    if (extensionCount > 0)
      this.#tell(
        'APP-106',
        name,
        `what other programs wrote into ${extensionCount} points (heart rate and the like) is not kept in the plan`,
      );
  }

  #tell(code: string, subject: string, text: string): void {
    this.session.voice.say({ note: { code, subject, text } });
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
