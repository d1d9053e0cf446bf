import fc from 'fast-check';

/**
 * Laws are tried on the same random cases wherever a change is judged, so that a failure is the change's; on a developer's
 * machine on new ones each time. `FIRNWARD_SEED=n` repeats a run.
 */
const seed = Number(process.env['FIRNWARD_SEED'] ?? (process.env['CI'] === undefined ? NaN : 20_261_125));
if (Number.isFinite(seed)) fc.configureGlobal({ seed });
