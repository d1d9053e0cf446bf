/**
 * `npm run screens`: a picture of every screen and theme, taken from the production build in a real Chromium, into
 * tests/gallery/screens with an index. `npm run screens -- phone` takes those whose name holds "phone".
 */
import { resolve } from 'node:path';
import { build } from 'vite';

const root = resolve(import.meta.dirname, '..');
const outDir = resolve(root, 'dist/screens');
await build({
  root,
  configFile: false,
  logLevel: 'error',
  publicDir: false,
  ssr: { target: 'node' },
  build: {
    ssr: resolve(root, 'tests/gallery/take-screens.ts'),
    outDir,
    emptyOutDir: true,
    target: 'node20',
    rolldownOptions: { output: { entryFileNames: 'take-screens.js' } },
  },
});
const { takeScreens } = await import(resolve(outDir, 'take-screens.js'));
await takeScreens(resolve(root, 'tests/gallery/screens'), process.argv.slice(2));
