import type { Note } from '../domain/problem';
import type { Json } from './json';
import type { Refuser } from './refusal';

export interface JsonObject {
  readonly [key: string]: Json;
}

/** A file of one version made into one of the next, its `version` apart. */
export type Migration = (file: JsonObject) => JsonObject;

/** Index 0 leads from version 1 to 2. There is one version so far. */
export const migrations: readonly Migration[] = [];

/** A project file of any known version as one of the version that is read now; newer ones are refused. */
export function brought(
  file: JsonObject & { readonly version: number },
  refuser: Refuser,
  steps: readonly Migration[] = migrations,
): { readonly file: JsonObject; readonly notes: readonly Note[] } {
  const newest = steps.length + 1;
  if (file.version > newest)
    refuser.refuse(
      '003',
      '/version',
      `the project was made by a newer Firnward (file version ${file.version}, this one reads up to ${newest})`,
      'Nothing was changed. Update Firnward on this device, then open it again.',
    );
  if (file.version === newest) return { file, notes: [] };
  const newer = steps.slice(file.version - 1).reduce((older, step) => step(older), file as JsonObject);
  const text = `made by an older version (${file.version}), brought up to date; the file itself is as it was`;
  return {
    file: { ...newer, version: newest },
    notes: [{ code: 'PRJ-004', subject: refuser.subject, text }],
  };
}
