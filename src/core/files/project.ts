import type { Note, Problem } from '../domain/problem';
import type { Project } from '../domain/project';
import { fail, ok, type Result } from '../domain/result';
import { readJson, type Json } from './json';
import { layOutJson } from './json-layout';
import { limits } from './limits';
import { idFindings, withIds } from './project-ids';
import { projectFile, projectFormat, projectVersion } from './project-schema';
import { problemList, schemaProblem } from './schema-problems';

/** A file of one version made into one of the next. Index 0 leads from version 1 to 2. */
type Migration = (file: { [key: string]: Json }) => { [key: string]: Json };
const migrations: readonly Migration[] = [];

const damaged = 'Open an earlier copy of the project, or mend the place named with a text editor.';

/** An empty project: what a file holds that says nothing. */
export function defaultProject(): Project {
  const empty = readProject(JSON.stringify({ format: projectFormat, version: projectVersion }), 'defaults');
  if (!empty.ok) throw new Error(`the project's own defaults are refused: ${empty.problem.title}`);
  return empty.value.project;
}

/**
 * A project file's text as a project. What is left out gets its default; unknown keys stay on the objects that hold them and
 * are written back. Refused: what is not a project, newer versions, wrong types, values out of range, ids that stand twice.
 */
export function readProject(
  text: string,
  fileName: string,
): Result<{ readonly project: Project; readonly notes: readonly Note[] }, Problem> {
  const json = readJson(text, fileName, 'PRJ', damaged);
  if (!json.ok) return json;
  const known = recognised(json.value, fileName);
  if (!known.ok) return known;

  const { file, version } = known.value;
  const current = migrations
    .slice(version - 1)
    .reduce((older, migrate) => migrate(older), file satisfies { [key: string]: Json });
  const checked = projectFile.safeParse({ ...current, version: projectVersion });
  const about = { subject: fileName, remedy: damaged };
  if (!checked.success) return fail(schemaProblem(checked.error, { ...about, code: 'PRJ-006' }));

  const { format: _format, version: _version, ...fields } = checked.data;
  const project = withIds(fields);
  const findings = [...idFindings(project), ...pointFindings(project)];
  if (findings.length > 0) return fail(problemList(findings, { ...about, code: 'PRJ-011' }));
  const migrated: Note[] =
    version === projectVersion
      ? []
      : [
          {
            code: 'PRJ-004',
            subject: fileName,
            text: `made by an older version (${version}), brought up to date`,
          },
        ];
  return ok({ project, notes: migrated });
}

/** The project as text, unknown keys included; reading it gives the same project. */
export function writeProject(project: Project): string {
  return layOutJson({ format: projectFormat, version: projectVersion, ...project });
}

function recognised(
  json: Json,
  fileName: string,
): Result<{ file: { [key: string]: Json }; version: number }, Problem> {
  const refuse = (code: string, place: string, title: string, remedy: string) =>
    fail<Problem>({ code, subject: fileName, place, title, remedy });
  if (json === null || typeof json !== 'object' || Array.isArray(json) || json['format'] !== projectFormat)
    return refuse(
      'PRJ-002',
      '/format',
      `this is not a Firnward project: it does not say "format": "${projectFormat}"`,
      'Open a file that ends in .firnward.json, or a track (GPX, GeoJSON, KML).',
    );
  const version = json['version'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuse('PRJ-006', '/version', 'the version is not a whole number from 1', damaged);
  if (version > projectVersion)
    return refuse(
      'PRJ-003',
      '/version',
      `the project was made by a newer Firnward (file version ${version}, this one reads up to ${projectVersion})`,
      'Nothing was changed. Update Firnward on this device, then open it again.',
    );
  return ok({ file: json, version });
}

function pointFindings(project: Project): { pointer: string; title: string }[] {
  const points = [project.line, ...project.alternatives].reduce((sum, line) => sum + line.points.length, 0);
  if (points <= limits.points) return [];
  return [{ pointer: '/line', title: `the lines hold ${points} points, more than ${limits.points}` }];
}
