import type { Figures } from '../core/assumptions/figures';
import type { Project } from '../core/domain/project';
import { pointsBack } from '../core/plan/way';
import type { Client } from '../worker/client';
import type { GroundCalls, OpenTerrain } from '../worker/ground-calls';
import { GroundShelf, type ReadGround } from './ground-shelf';
import { groundQuestion } from './questions';

type GroundQuestion = ReturnType<typeof groundQuestion>;

interface LineQuestion {
  readonly quick: GroundQuestion;
  readonly whole: GroundQuestion;
}

/** What is asked of the ground for a day; `back` null: the team does not come back by another line. */
export interface DayQuestion {
  readonly there: LineQuestion;
  readonly back: LineQuestion | null;
}

export interface DayGround {
  readonly there: ReadGround;
  readonly back: ReadGround | null;
}

export function dayQuestion(
  project: Project,
  figures: Figures,
  terrain: readonly OpenTerrain[],
): DayQuestion {
  const along = (points: Project['line']['points']): LineQuestion => {
    const onLine = { ...project, line: { ...project.line, points } };
    return {
      quick: groundQuestion(onLine, figures, terrain, 'quick'),
      whole: groundQuestion(onLine, figures, terrain, 'whole'),
    };
  };
  const { points } = project.line;
  const back = pointsBack(project, points.at(-1)?.position);
  return { there: along(points), back: back && along(back) };
}

/** The ground of a whole day: under the line, and under another one by which the team comes back. */
export class DayShelf {
  readonly #there: LineShelf;
  readonly #back: LineShelf;
  /** How much is read of each line that had to be read, 0 to 1. */
  readonly #done = new Map<LineShelf, number>();

  constructor(ground: Client<GroundCalls>, onProgress: (done: number) => void) {
    const progressOf = (shelf: LineShelf, done: number) => {
      this.#done.set(shelf, done);
      const all = [...this.#done.values()];
      onProgress(all.reduce((sum, each) => sum + each, 0) / all.length);
    };
    this.#there = new LineShelf(ground, progressOf);
    this.#back = new LineShelf(ground, progressOf);
  }

  hasWhole({ there, back }: DayQuestion): boolean {
    return this.#there.hasWhole(there) && (back === null || this.#back.hasWhole(back));
  }

  /** What the first plan is made from: the whole where it is there, else a quick look. */
  first(question: DayQuestion): Promise<DayGround> {
    return this.#read(question, (shelf, line) => shelf.first(line));
  }

  whole(question: DayQuestion): Promise<DayGround> {
    return this.#read(question, (shelf, line) => shelf.whole(line));
  }

  clear(): void {
    this.#there.clear();
    this.#back.clear();
  }

  /** Both lines are asked at once: between one answer and the next question a newer one could have come. */
  async #read(
    { there, back }: DayQuestion,
    read: (shelf: LineShelf, line: LineQuestion) => Promise<ReadGround>,
  ): Promise<DayGround> {
    this.#done.clear();
    if (!this.#there.hasWhole(there)) this.#done.set(this.#there, 0);
    if (back === null) this.#back.clear();
    else if (!this.#back.hasWhole(back)) this.#done.set(this.#back, 0);
    const [readThere, readBack] = await Promise.all([
      read(this.#there, there),
      back && read(this.#back, back),
    ]);
    return { there: readThere, back: readBack };
  }
}

/** The quick and the whole reading of one line. */
class LineShelf {
  readonly #quick: GroundShelf;
  readonly #whole: GroundShelf;

  constructor(ground: Client<GroundCalls>, progressOf: (shelf: LineShelf, done: number) => void) {
    const onProgress = (done: number) => progressOf(this, done);
    this.#quick = new GroundShelf(ground, onProgress);
    this.#whole = new GroundShelf(ground, onProgress);
  }

  hasWhole({ whole }: LineQuestion): boolean {
    return this.#whole.has(whole);
  }

  first({ quick, whole }: LineQuestion): Promise<ReadGround> {
    if (this.#whole.has(whole)) return this.#whole.read(whole);
    // A reading under way would keep the processor from the first look.
    this.#whole.clear();
    return this.#quick.read(quick);
  }

  whole({ whole }: LineQuestion): Promise<ReadGround> {
    return this.#whole.read(whole);
  }

  clear(): void {
    this.#quick.clear();
    this.#whole.clear();
  }
}
