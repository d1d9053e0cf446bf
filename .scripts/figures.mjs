/**
 * `npm run bench | fuzz | soak | crash`: every file in tests/<kind> that exports figures as its default, a line each.
 * `npm run bench -- slip` runs those whose name holds "slip". Exit 1 when one falls short of its limit.
 */
import { existsSync, readdirSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { build } from 'vite';

const root = resolve(import.meta.dirname, '..');
const [kind, ...wanted] = process.argv.slice(2);
const folder = resolve(root, 'tests', kind);
if (!existsSync(folder)) {
  console.log(`${kind} - - - not-measured no such runs are written yet`);
  process.exit(0);
}
const files = readdirSync(folder).filter(
  (file) =>
    file.endsWith('.figures.ts') && (wanted.length === 0 || wanted.some((word) => file.includes(word))),
);

/** What the runs themselves work with. */
const tools = ['playwright-core', 'vite', 'vitest', 'papaparse'];
const outDir = resolve(root, 'dist/figures', kind);
await build({
  root,
  configFile: false,
  logLevel: 'error',
  publicDir: false,
  // As the command line is shipped: what the program itself uses is in its own file, and nothing is looked for at the start.
  ssr: { target: 'node', noExternal: true, external: tools },
  build: {
    ssr: true,
    outDir,
    emptyOutDir: true,
    target: 'node20',
    rolldownOptions: {
      input: Object.fromEntries([
        ['figure', resolve(root, 'tests/bench/figure.ts')],
        ...files.map((file) => [basename(file, '.ts'), resolve(folder, file)]),
      ]),
      output: { entryFileNames: '[name].js' },
    },
  },
});

const { figureLine, verdict } = await import(resolve(outDir, 'figure.js'));
let short = 0;
for (const file of files) {
  const { default: figures } = await import(resolve(outDir, `${basename(file, '.ts')}.js`));
  for (const figure of await figures()) {
    if (verdict(figure) === 'short') short++;
    console.log(figureLine(figure));
  }
}
process.exit(short === 0 ? 0 : 1);
