#!/usr/bin/env node
/**
 * Starts the program beside it. Each of its files comes with what V8 compiled of it when it was built; another kind of Node makes
 * nothing of that and compiles anew.
 */
const { readFileSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

const words = process.argv.slice(2);
const jobs = process.env.FIRNWARD_KEEP_COMPILED;
// Threads that a job starts have words of their own.
const isKeeping = words.length === 0 && jobs !== undefined;
const asked = isKeeping ? JSON.parse(jobs) : [words];

// A plan, and the threads it starts, take up much memory; the others little, and taking up more takes longer than sweeping it.
// The threads' word is that of src/cli/slip-thread-word.ts.
const isLarge = ['plan', 'slip-thread'].includes(asked[0][0]);
if (!isLarge) setFlagsFromString('--semi-space-growth-factor=1');
// What is swept is small: waking other threads for it takes longer.
setFlagsFromString('--no-parallel-scavenge');
// Most of a job is over before it would run better: only what runs really often is optimised (default 67584).
setFlagsFromString('--interrupt-budget=500000');
// What was compiled under other flags is not taken.
const compiledEnding = isLarge ? '.large.compiled' : '.small.compiled';

const loaded = new Map();
const { start } = load('program.js');

if (isKeeping) keepCompiled();
else start(words);

function load(name) {
  const known = loaded.get(name);
  if (known) return known.exports;
  const path = join(__dirname, name);
  const script = new Script(readFileSync(path, 'utf8'), {
    filename: path,
    cachedData: compiled(path + compiledEnding),
  });
  const made = { script, exports: {} };
  loaded.set(name, made);
  // Threads are started from this file too.
  script.runInThisContext()(
    made.exports,
    (id) => (id.startsWith('./') ? load(id.slice(2)) : require(id)),
    __filename,
  );
  return made.exports;
}

function compiled(path) {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}

/** Runs some jobs, so that what they need is compiled, and keeps that. */
async function keepCompiled() {
  for (const words of asked) await start(words, { staysOn: true });
  for (const [name, { script }] of loaded)
    writeFileSync(join(__dirname, name + compiledEnding), script.createCachedData());
}
