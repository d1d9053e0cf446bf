import { projectFile } from './project-schema';
import { z } from './zod';

/** The project file's JSON Schema (draft 2020-12), from the schema that reads it. */
export function projectJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(projectFile, { io: 'input', target: 'draft-2020-12' });
  return {
    ...schema,
    title: 'Firnward project',
    description: 'Only format and version are required; all else has a default. Unknown keys are kept.',
  };
}
