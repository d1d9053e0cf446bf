/**
 * The one way to zod: without run-time code generation, which the page's Content-Security-Policy forbids, and with our own
 * words. Both must be set before the first schema is made, so schemas import zod from here and from nowhere else.
 */
import * as z from 'zod/mini';
import { schemaFault } from './schema-wording';

z.config({ jitless: true, customError: schemaFault });

export { z };
