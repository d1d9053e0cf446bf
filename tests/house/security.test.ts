import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../..');
const read = (path: string) => readFileSync(resolve(root, path), 'utf8');

function filesBelow(folder: string): string[] {
  return readdirSync(resolve(root, folder)).flatMap((name) => {
    const path = join(folder, name);
    return statSync(resolve(root, path)).isDirectory() ? filesBelow(path) : [path];
  });
}

describe('content security policy', () => {
  const page = read('src/index.html');
  const inPage = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(page)?.[1] ?? '';
  const inHeaders = /Content-Security-Policy: (.+)/.exec(read('public/_headers'))?.[1] ?? '';
  const directives = (policy: string) =>
    policy
      .split(';')
      .map((each) => each.trim())
      .filter(Boolean);

  test('the page and its headers say the same; only headers can keep the page out of frames', () => {
    expect(directives(inHeaders)).toEqual([...directives(inPage), "frame-ancestors 'none'"]);
  });

  test('nothing but own scripts, styles, workers; nothing inline, nothing evaluated', () => {
    expect(inPage).not.toMatch(/unsafe|\*|http:|script-src[^;]*(data|blob|https):/);
    for (const directive of [
      "default-src 'none'",
      "script-src 'self'",
      "style-src 'self'",
      "worker-src 'self'",
    ])
      expect(directives(inPage)).toContain(directive);
  });

  test('the policy stands before anything that it is to hold', () => {
    expect(page.indexOf('Content-Security-Policy')).toBeLessThan(page.search(/<(script|link|style|title)/));
  });

  test('no script in the page, no style attribute in words, no markup made from text', () => {
    expect(page).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\son\w+=|\sstyle=/);
    for (const path of filesBelow('src').filter((name) => /\.(svelte|ts)$/.test(name))) {
      const text = read(path);
      expect(text, path).not.toMatch(
        /\{@html|\.innerHTML\b|\.outerHTML\b|insertAdjacentHTML|setHTML\(|document\.write/,
      );
      expect(text, path).not.toMatch(/\beval\(|new Function\(/);
      // The sheet as a file of its own has its styles in itself, and a policy of its own.
      if (path.endsWith('.svelte')) expect(text, path).not.toMatch(/\sstyle="[^{]/);
    }
  });
});

describe('what is installed', () => {
  const { dependencies, devDependencies, optionalDependencies } = JSON.parse(read('package.json')) as Record<
    'dependencies' | 'devDependencies' | 'optionalDependencies',
    Record<string, string>
  >;

  test.each(Object.entries({ ...dependencies, ...devDependencies, ...optionalDependencies }))(
    '%s is pinned to one version (%s)',
    (_, version) => expect(version).toMatch(/^\d+\.\d+\.\d+$/),
  );

  test('no package runs a script of its own; versions are written whole', () => {
    const settings = read('.npmrc');
    for (const line of ['ignore-scripts=true', 'save-exact=true'])
      expect(settings.split('\n')).toContain(line);
  });

  test('every package of the lock file has its checksum and comes from the registry', () => {
    const { packages } = JSON.parse(read('package-lock.json')) as {
      packages: Record<string, { resolved?: string; integrity?: string; inBundle?: boolean }>;
    };
    for (const [path, { resolved, integrity, inBundle }] of Object.entries(packages)) {
      if (path === '' || inBundle) continue;
      if (resolved !== undefined) expect(resolved, path).toMatch(/^https:\/\/registry\.npmjs\.org\//);
      expect(integrity, path).toMatch(/^sha512-/);
    }
  });

  test.each(Object.keys(dependencies))('what is known of %s stands in DEVELOPERS.md', (name) =>
    expect(read('DEVELOPERS.md')).toContain(`\`${name}\``),
  );
});
