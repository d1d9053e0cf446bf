import type { Project } from '../domain/project';

/** Eight letters and digits that differ between the states of a project, to tell two sheets apart; no seal against forgery. */
export const stateMark = (project: Project): string => fnv1a(JSON.stringify(project)).toUpperCase();

/**
 * Eight hexadecimal digits over a text's UTF-8 bytes.
 *
 * @source 32-bit FNV-1a: Fowler, Noll, Vo, Eastlake, Hansen, IETF draft-eastlake-fnv.
 */
export function fnv1a(text: string): string {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}
