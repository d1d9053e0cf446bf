import type { Note, Problem } from '../domain/problem';
import type { Project } from '../domain/project';
import { fail, type Result } from '../domain/result';
import { readJson, type Json } from './json';
import { layOutJson } from './json-layout';
import { brought, type JsonObject } from './project-migrations';
import { projectFindings, withIds } from './project-references';
import { projectFile, projectFormat, projectVersion, type ProjectFile } from './project-schema';
import { attempt, Refusal, Refuser } from './refusal';
import { problemList, schemaProblem } from './schema-problems';
import { decodeText } from './text';

const damaged = 'Open an earlier copy of the project, or mend the place named with a text editor.';

/** An empty project: what a file holds that says nothing. */
export function defaultProject(): Project {
  return projectOf(projectFile.parse({ format: projectFormat, version: projectVersion }));
}

/** A project file's bytes as a project; see readProject. What is not UTF-8 is refused, never read with replaced letters. */
export function readProjectFile(bytes: Uint8Array, fileName: string): ReturnType<typeof readProject> {
  const from = { subject: fileName, letters: 'PRJ', latin1IfNotUtf8: false };
  const decoded = decodeText(bytes, from);
  if (decoded.ok) return readProject(decoded.value.text, fileName);
  const { question: _, ...problem } = decoded.problem;
  return fail(problem);
}

/**
 * A project file's text as a project. What is left out gets its default; unknown keys stay on the objects that hold them and
 * are written back. Refused: what is not a project, newer versions, wrong types, values out of range, ids that stand twice.
 */
export function readProject(
  text: string,
  fileName: string,
): Result<{ readonly project: Project; readonly notes: readonly Note[] }, Problem> {
  const refuser = new Refuser(fileName, 'PRJ');
  return attempt(() => {
    const { file, notes } = brought(recognised(readJson(text, refuser, damaged), refuser), refuser);
    const about = { subject: fileName, remedy: damaged };
    const checked = projectFile.safeParse(file);
    if (!checked.success) throw new Refusal(schemaProblem(checked.error, { ...about, code: 'PRJ-006' }));
    const project = projectOf(checked.data);
    const findings = projectFindings(project);
    if (findings.length > 0) throw new Refusal(problemList(findings, { ...about, code: 'PRJ-011' }));
    return { project, notes };
  });
}

/** The project as text, unknown keys included; reading it gives the same project. */
export function writeProject(project: Project): string {
  return layOutJson({ format: projectFormat, version: projectVersion, ...project });
}

function projectOf({ format: _format, version: _version, ...fields }: ProjectFile): Project {
  return withIds(fields);
}

function recognised(json: Json, refuser: Refuser): JsonObject & { readonly version: number } {
  if (json === null || typeof json !== 'object' || Array.isArray(json) || json['format'] !== projectFormat)
    return refuser.refuse(
      '002',
      '/format',
      `this is not a Firnward project: it does not say "format": "${projectFormat}"`,
      'Open a file that ends in .firnward.json, or a track (GPX, GeoJSON, KML).',
    );
  const version = json['version'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuser.refuse('006', '/version', 'the version is not a whole number from 1', damaged);
  return { ...json, version };
}
