import { spawnSync } from 'node:child_process';
import { copyFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

const root = resolve(import.meta.dirname, '..');

/** What is done most, over the demo: that is then compiled. */
const terrain = ['--elevation', 'public/demo/ombry-terrain.tif'];
const line = ['--line', 'sample-tracks/ombry-headwall.gpx'];
const largeJobs = [['plan', ...terrain, ...line]];
const smallJobs = [
  ['ground', ...terrain, ...line],
  ['slip', '--slope', '30'],
  ['pace', '--length', '300', '--mode', 'running-belay'],
  ['convert', ...line, '--to', 'geojson', '--out', '-'],
];

/**
 * A Vite plugin for the command line: puts `firnward.js` beside the program, which starts it, and lets it keep what V8 compiles,
 * since reading and compiling is most of a short job.
 */
export function codeCache() {
  let folder = '';
  return {
    name: 'code-cache',
    configResolved: ({ build }) => {
      folder = build.outDir;
    },
    // Not before: what makes the program small writes letters as they are.
    generateBundle(_, files) {
      for (const file of Object.values(files))
        if (file.type === 'chunk') file.code = asFunction(inAscii(file.code));
    },
    closeBundle() {
      const program = join(folder, 'firnward.js');
      copyFileSync(join(import.meta.dirname, 'start-command-line.cjs'), program);
      writeFileSync(join(folder, 'package.json'), '{ "type": "commonjs" }\n');
      for (const jobs of [largeJobs, smallJobs]) {
        const { status, stderr } = spawnSync(process.execPath, [program], {
          cwd: root,
          env: { ...process.env, FIRNWARD_KEEP_COMPILED: JSON.stringify(jobs) },
          maxBuffer: 2 ** 28,
        });
        if (status !== 0) throw new Error(`the command line does not start: ${stderr}`);
      }
    },
  };
}

/** As `firnward.js` runs it, so that it need not put the text together. */
const asFunction = (code) => `(function (exports, require, __filename) {${code}\n})`;

/** Bytes that are characters: such a file is read without decoding. */
function inAscii(code) {
  // eslint-disable-next-line no-control-regex
  if (/\\[^\x00-\x7f]/.test(code)) throw new Error('a backslash before a letter that is not ASCII');
  // eslint-disable-next-line no-control-regex
  return code.replaceAll(
    /[^\x00-\x7f]/g,
    (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
