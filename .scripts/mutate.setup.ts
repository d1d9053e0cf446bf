import fc from 'fast-check';
import { inject } from 'vitest';

/** Which case breaks a law is enough to know here; looking for the simplest one takes longest. */
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });

/** What a test file works out while it is read is not changed: the thread may still be changed as the run before asked. */
const name = inject('globalNamespace' as never) as string | undefined;
const changes = (globalThis as Record<string, unknown>)[name ?? ''] as
  { activeMutant: string | undefined } | undefined;
if (changes) changes.activeMutant = undefined;
