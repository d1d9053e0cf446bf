import type { MarkKind } from '../core/domain/mark';
import type { Ask, Choice } from './asking';
import { addMark, newId, newStretch } from './edits';
import type { MapHandle } from './map/map-props';
import { placeAt } from './map/stations';
import { NewVersion } from './offline.svelte';
import { Opening } from './opening';
import { Projects } from './projects.svelte';
import type { SaveKind } from './save-kinds';
import { saveAs } from './saving-files';
import type { Session } from './session.svelte';
import { SheetState } from './sheet-state.svelte';
import type { SidePage } from './side-pages';

const demo = { project: './demo/ombry.firnward.json', terrain: './demo/ombry-terrain.tif' };

/** What the page works with, wired together once: files, questions, sheet, the map's hand, and the page that is turned to. */
export class Desk {
  page = $state<SidePage>('ledger');
  /** The question that waits for an answer. */
  choice = $state.raw<(Choice & { answer: (value: string | null) => void }) | null>(null);
  map: MapHandle | null = null;
  readonly opening: Opening;
  readonly projects: Projects;
  readonly sheet: SheetState;
  readonly newVersion = new NewVersion();
  readonly #mapPicture = () => this.map?.picture() ?? null;

  constructor(readonly session: Session) {
    this.opening = new Opening(session, this.#ask, demo);
    this.projects = new Projects(session, this.opening, this.#ask);
    this.sheet = new SheetState(session, this.#mapPicture);
  }

  readonly isDemo = $derived.by(() => this.session.terrain.some(({ name }) => demo.terrain.endsWith(name)));

  /** Opens what the last visit left, or the demo, and then what the address carries. */
  start(): void {
    void this.opening.start().then(() => this.opening.openLink(location.hash));
    // When the first plan stands: keeping the page must not keep it from opening.
    void this.session.lineShown.then(() => setTimeout(() => void this.newVersion.watch(), 3000));
  }

  readonly save = (kind: SaveKind): void => void saveAs(kind, this.session, this.#mapPicture);

  /** A day that was laid over the plan is turned to. */
  async openFiles(files: readonly File[]): Promise<void> {
    const before = this.session.recorded;
    await this.opening.openFiles(files);
    const { recorded } = this.session;
    if (recorded && recorded !== before) this.page = 'way';
  }

  /** A mark on the line, with its form open. */
  markAt(kind: MarkKind, alongM: number): void {
    const { session } = this;
    const place = session.plan && placeAt(session.plan.stations, alongM);
    if (!place) return;
    const id = newId();
    session.edit(addMark(kind, place, id));
    session.markId = id;
    this.page = 'marks';
  }

  /** A stretch to be set by hand, with its form open. */
  stretch(fromM: number, toM: number): void {
    this.session.edit(newStretch(fromM, toM));
    this.page = 'snow';
  }

  /** Keys that hold everywhere but in fields of text. */
  readonly keyed = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || isText(event.target)) return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) this.session.undo();
    else if (key === 'y' || (key === 'z' && event.shiftKey)) this.session.redo();
    else if (key === 's') this.save('project');
    else if (key === 'p' && !this.sheet.isOpen && this.session.plan) void this.sheet.open(true);
    else return;
    event.preventDefault();
  };

  readonly #ask: Ask = (asked) =>
    new Promise((resolve) => {
      // One question at a time: the one before is put away.
      this.choice?.answer(null);
      this.choice = {
        ...asked,
        answer: (value) => {
          this.choice = null;
          resolve(value);
        },
      };
    });
}

/** A tick or a choice of several has no text of its own to undo. */
const isText = (target: EventTarget | null): boolean =>
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLInputElement && target.type !== 'radio' && target.type !== 'checkbox');
