import type { Project } from '../core/domain/project';
import type { Ask } from './asking';
import { emptied, setField } from './edits';
import type { Opening } from './opening';
import { whyNot } from './project-writer.svelte';
import type { Session } from './session.svelte';
import type { KeptProject } from './store/database';
import { record } from './store/history';

/** The projects on this device, and what is done with them as wholes. */
export class Projects {
  /** Last edited first; null: not read yet. */
  list = $state.raw<readonly KeptProject[] | null>(null);

  constructor(
    readonly session: Session,
    readonly opening: Opening,
    readonly ask: Ask,
  ) {}

  async refresh(): Promise<void> {
    const { saving } = this.session;
    try {
      await saving.writer?.settled();
      this.list = await saving.shelf.list();
    } catch (reason) {
      this.list = [];
      this.session.voice.say({
        note: { code: 'APP-114', subject: 'This device', text: `no projects can be read: ${whyNot(reason)}` },
      });
    }
  }

  open(id: string): Promise<void> {
    return this.#do(async () => {
      const taken = await this.session.saving.take(id);
      if (taken) await this.opening.enter(taken);
    });
  }

  /** An empty project with the team, the snow and the figures of the present one. */
  begin(): Promise<void> {
    return this.#do(async () => {
      const { project } = this.session;
      if (project) await this.opening.begin(emptied(project, 'New project'));
    });
  }

  openDemo(): Promise<void> {
    return this.#do(() => this.opening.openDemo());
  }

  duplicate(id: string): Promise<void> {
    return this.#do(async () => {
      const { saving, project } = this.session;
      const of = id === saving.currentId ? project : (await saving.take(id))?.project;
      if (of) await saving.putBeside({ ...of, name: `${of.name}, copy` });
    });
  }

  rename(id: string, name: string): Promise<void> {
    return this.#do(async () => {
      const { session } = this;
      const edit = setField('name', name, 'rename');
      if (id === session.saving.currentId) return session.edit(edit);
      const taken = await session.saving.take(id);
      if (!taken) return;
      const { project, history, writer } = taken;
      const after = edit.make(project);
      const recorded = record(history, edit.name, [project, after], Date.now());
      if (recorded) writer.add(recorded.edit, { project: after, history: recorded.history }, null);
      if (writer.state.kind === 'elsewhere')
        session.voice.say({
          note: { code: 'APP-115', subject: project.name, text: 'is open in another tab: rename it there' },
        });
      await writer.leave();
    });
  }

  /** Deleted projects can be taken back for thirty days. */
  remove({ id, name }: KeptProject): Promise<void> {
    return this.#do(async () => {
      const { session } = this;
      const { shelf, currentId } = session.saving;
      await session.saving.writer?.settled();
      await shelf.setDeleted(id, Date.now());
      if (id === currentId) {
        const next = await session.saving.lastOne();
        if (!next || !(await this.opening.enter(next))) await this.opening.openDemo();
      }
      session.voice.announcement = `Deleted ${name}. It can be taken back for thirty days.`;
    });
  }

  takeBack(id: string): Promise<void> {
    return this.#do(() => this.session.saving.shelf.setDeleted(id, null));
  }

  /** Goes on here with a project that another tab has. Where both have changed it, the guide says what becomes of it. */
  takeOver(): Promise<void> {
    return this.#do(async () => {
      const { saving, project } = this.session;
      const { writer, currentId } = saving;
      if (!writer || !project || currentId === null) return;
      if (!writer.isChangedHere) return this.#asKept(currentId);
      if (!(await writer.journal.isOvertaken())) return writer.overwrite();
      const answer = await this.ask({
        title: `${project.name || 'This project'} was changed in both tabs.`,
        detail: 'Which one goes on? The other stays among the earlier states.',
        choices: [
          { value: 'mine', label: 'As it is here' },
          { value: 'theirs', label: 'As it is in the other tab' },
          { value: 'both', label: 'Both, as two projects' },
        ],
        typed: false,
        putAway: 'Decide later',
      });
      if (answer === 'mine') await writer.overwrite();
      else if (answer === 'theirs') await this.#asKept(currentId, project);
      else if (answer === 'both') this.goOnAsCopy();
    });
  }

  /** What is here becomes a project of its own. */
  goOnAsCopy(): void {
    const { project, opened } = this.session;
    if (project) this.session.begin({ ...project, name: `${project.name}, copy` }, opened);
    void this.refresh();
  }

  async #asKept(id: string, mine?: Project): Promise<void> {
    const taken = await this.session.saving.take(id, true);
    if (!taken) return;
    await this.opening.enter(taken);
    if (mine) taken.writer.putAside({ name: 'as it was in this tab', atMs: Date.now(), value: mine });
  }

  async #do(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (reason) {
      this.session.voice.trouble(reason, 'the projects');
    }
    await this.refresh();
  }
}
