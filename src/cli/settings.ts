import type { Note } from '../core/domain/problem';
import type { Project } from '../core/domain/project';
import { hardnesses, type Hardness, type Snow } from '../core/domain/snow';
import { defaultProject, readProjectFile } from '../core/files/project';
import { UsageError, type Arguments } from './arguments';
import { nameOf, readWhole, valueOf } from './inputs';

/** The project that `--project` names, or the default one; `--snow` goes before what it says. */
export async function readSettings(args: Arguments): Promise<{ project: Project; notes: readonly Note[] }> {
  const file = args.text('project');
  const read =
    file === null
      ? { project: defaultProject(), notes: [] }
      : valueOf(readProjectFile(await readWhole(file), nameOf(file)));
  const snow = snowOf(args, read.project.snow);
  return { project: { ...read.project, snow }, notes: read.notes };
}

export function snowOf(args: Arguments, usual: Snow): Snow {
  const hardness = args.text('snow');
  if (hardness === null) return usual;
  if (!(hardnesses as readonly string[]).includes(hardness))
    throw new UsageError(`--snow takes ${hardnesses.join(', ')}; found "${hardness}"`);
  return { ...usual, hardness: hardness as Hardness };
}
