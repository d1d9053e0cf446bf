/** Installs the locked packages, unless they already stand. Needs only Node and npm. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';

const root = resolve(import.meta.dirname, '..');
const stamp = resolve(root, 'node_modules/.firnward-lock');
const lock = createHash('sha256')
  .update(readFileSync(resolve(root, 'package-lock.json')))
  .digest('hex');

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Firnward needs Node 20.19 or newer; this is ${process.versions.node}.`);
  process.exit(1);
}
if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) process.exit(0);

const npm = spawnSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], {
  cwd: root,
  stdio: 'inherit',
  shell: process.platform === 'win32',
});
if (npm.status !== 0) process.exit(npm.status ?? 1);
writeFileSync(stamp, lock);
