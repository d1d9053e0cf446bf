import { expect, test } from 'vitest';
import { projectJsonSchema } from '../../../src/core/files/project-json-schema';

test('the schema that is published is the one the reader checks by', async () => {
  const text = JSON.stringify(projectJsonSchema(), null, 2) + '\n';
  await expect(text).toMatchFileSnapshot('../../../public/firnward-project.schema.json');
});
