import type { Project } from '../../core/domain/project';
import { applyChange, changeBetween, type Change } from './change';

/** One edit with the name it is undone by: "undo move point". */
export interface Edit {
  /** Counts up over the life of the journal. */
  readonly seq: number;
  readonly name: string;
  readonly atMs: number;
  readonly change: Change;
}

/** The edits that can be undone and done again, and where the present stands among them. A value; every step gives a new one. */
export interface History {
  readonly edits: readonly Edit[];
  /** Number of edits done: edits[done - 1] is the next to undo, edits[done] the next to redo. */
  readonly done: number;
  /** Edits before edits[0] that are only in the journal. */
  readonly olderOnDisk: boolean;
}

export const emptyHistory: History = { edits: [], done: 0, olderOnDisk: false };

/** Edits kept at hand; older ones stay in the journal. */
export const atHandMax = 1000;

/** @returns null where the edit changed nothing. What was undone before can no longer be redone. */
export function record(
  history: History,
  name: string,
  [before, after]: readonly [Project, Project],
  atMs: number,
): { readonly history: History; readonly edit: Edit } | null {
  const change = changeBetween(before, after);
  if (change === null) return null;
  const kept = history.edits.slice(0, history.done);
  const edit: Edit = { seq: nextSeq(history), name, atMs, change };
  const edits = [...kept, edit].slice(-atHandMax);
  return {
    history: {
      edits,
      done: edits.length,
      olderOnDisk: history.olderOnDisk || kept.length + 1 > atHandMax,
    },
    edit,
  };
}

/** Sequence number of the last edit that is done; 0 before the first. */
export function position(history: History): number {
  const last = history.edits[history.done - 1];
  if (last) return last.seq;
  const first = history.edits[0];
  return first ? first.seq - 1 : 0;
}

const nextSeq = (history: History): number => position(history) + 1;

export interface Step {
  readonly history: History;
  readonly project: Project;
  readonly name: string;
}

export function undo(history: History, project: Project): Step | null {
  const edit = history.edits[history.done - 1];
  if (!edit) return null;
  return {
    history: { ...history, done: history.done - 1 },
    project: applyChange(project, edit.change, 'undo') as Project,
    name: edit.name,
  };
}

export function redo(history: History, project: Project): Step | null {
  const edit = history.edits[history.done];
  if (!edit) return null;
  return {
    history: { ...history, done: history.done + 1 },
    project: applyChange(project, edit.change, 'do') as Project,
    name: edit.name,
  };
}

/** The project as it stood when so many of the edits at hand were done. */
export function projectAt({ edits, done }: History, project: Project, doneThen: number): Project {
  let value: unknown = project;
  for (let i = done; i > doneThen; i--) value = applyChange(value, (edits[i - 1] as Edit).change, 'undo');
  for (let i = done; i < doneThen; i++) value = applyChange(value, (edits[i] as Edit).change, 'do');
  return value as Project;
}

/** What was undone and cannot be redone after another edit: the state at the end of it, with its last edit's name. */
export function undoneTip(
  history: History,
  project: Project,
): { readonly name: string; readonly value: Project } | null {
  const last = history.edits.at(-1);
  if (!last || history.done === history.edits.length) return null;
  return { name: last.name, value: projectAt(history, project, history.edits.length) };
}
