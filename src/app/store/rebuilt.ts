import type { Project } from '../../core/domain/project';
import { applyChange } from './change';
import type { WholeCopy } from './database';
import { atHandMax, type Edit, type History } from './history';

interface Rebuilt {
  readonly project: Project;
  readonly history: History;
  readonly lost: string | null;
}

/**
 * The project after edit number `seq`, from whole copies and the edits between. Where an edit is missing or damaged: the last
 * state before it that can be built, and what is missing in words. null: no copy can be read.
 */
export function rebuilt(copies: readonly WholeCopy[], edits: readonly Edit[], seq: number): Rebuilt | null {
  const bySeq = new Map(edits.filter(isEdit).map((edit) => [edit.seq, edit]));
  const sound = copies.filter(isCopy).sort((a, b) => Math.abs(a.seq - seq) - Math.abs(b.seq - seq));
  let best: { readonly value: unknown; readonly at: number } | null = null;
  for (const copy of sound) {
    const reached = walk(copy, bySeq, seq);
    if (best === null || Math.abs(reached.at - seq) < Math.abs(best.at - seq)) best = reached;
    if (best.at === seq) break;
  }
  if (!best) return null;
  const { value, at } = best;
  const missing = Math.abs(seq - at);
  return {
    project: value as Project,
    history: historyAround(bySeq, at),
    lost:
      missing === 0 ? null : `${missing} unfinished or damaged ${missing === 1 ? 'edit' : 'edits'} left out`,
  };
}

/** From a copy towards an edit, as far as the edits can be read. */
function walk({ value, seq: from }: WholeCopy, edits: ReadonlyMap<number, Edit>, to: number) {
  let now: unknown = value;
  let at = from;
  while (at !== to) {
    const isForth = at < to;
    const edit = edits.get(isForth ? at + 1 : at);
    if (!edit) break;
    try {
      now = applyChange(now, edit.change, isForth ? 'do' : 'undo');
    } catch {
      break;
    }
    at += isForth ? 1 : -1;
  }
  return { value: now, at };
}

/** The unbroken run of edits that holds a place. */
function historyAround(edits: ReadonlyMap<number, Edit>, at: number): History {
  const done: Edit[] = [];
  for (let seq = at; done.length < atHandMax; seq--) {
    const edit = edits.get(seq);
    if (!edit) break;
    done.unshift(edit);
  }
  const undone: Edit[] = [];
  for (let seq = at + 1; ; seq++) {
    const edit = edits.get(seq);
    if (!edit) break;
    undone.push(edit);
  }
  const first = done[0]?.seq ?? at + 1;
  return {
    edits: [...done, ...undone].map(({ seq, name, atMs, change }) => ({ seq, name, atMs, change })),
    done: done.length,
    olderOnDisk: edits.has(first - 1),
  };
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What is read back from a damaged disk may be anything. */
const isEdit = (edit: unknown): edit is Edit =>
  isObject(edit) &&
  Number.isSafeInteger(edit['seq']) &&
  typeof edit['name'] === 'string' &&
  Number.isFinite(edit['atMs']) &&
  isObject(edit['change']);

const isCopy = (copy: unknown): copy is WholeCopy =>
  isObject(copy) && Number.isSafeInteger(copy['seq']) && isObject(copy['value']);
