import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';

/** Not the root that Vite is given: for tests that is the whole tree, with its packages. */
const sources = join(import.meta.dirname, '../src');

/**
 * A Vite plugin. Writes sw.js beside the built page: on the first visit it keeps every file of the build, and from then on the page opens
 * from there, without a network. Another build is another cache; it takes over when the last page of the old one is closed, or
 * when the page asks for it. The page knows its version and the build by a checksum of its sources.
 */
export function offline() {
  let folder = '';
  return {
    name: 'offline',
    apply: (_config, { mode }) => mode !== 'cli',
    config: ({ publicDir }) => ({
      define: { 'import.meta.env.VERSION': JSON.stringify(versionOf(publicDir)) },
    }),
    configResolved: ({ build }) => {
      folder = build.outDir;
    },
    closeBundle() {
      const files = listed(folder).filter((path) => path !== 'sw.js' && !path.startsWith('_'));
      const hash = createHash('sha256');
      for (const path of files) hash.update(path).update(readFileSync(join(folder, path)));
      writeFileSync(join(folder, 'sw.js'), worker(hash.digest('hex').slice(0, 12), files));
    },
  };
}

function versionOf(publicFiles) {
  const { version } = JSON.parse(readFileSync(join(import.meta.dirname, '../package.json'), 'utf8'));
  const hash = createHash('sha256').update(version);
  for (const folder of [sources, publicFiles].filter(existsSync))
    for (const path of listed(folder)) hash.update(path).update(readFileSync(join(folder, path)));
  return `${version}, build ${hash.digest('hex').slice(0, 8)}`;
}

function listed(folder, under = folder) {
  return readdirSync(under)
    .flatMap((name) => {
      const path = join(under, name);
      return statSync(path).isDirectory()
        ? listed(folder, path)
        : [relative(folder, path).split(sep).join('/')];
    })
    .sort();
}

const worker = (version, files) => `const name = 'firnward-${version}';
const files = ${JSON.stringify(['./', ...files.filter((path) => path !== 'index.html')])};

// Past the browser's own cache: its copies may be of another build.
const fresh = files.map((path) => new Request(path, { cache: 'reload' }));

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(name).then((cache) => cache.addAll(fresh)));
});

self.addEventListener('message', ({ data }) => {
  if (data === 'take over') void self.skipWaiting();
});

// The build before is kept: a page of it that is still open in another tab finds its parts.
self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys().then(async (all) => {
      const others = all.filter((key) => key.startsWith('firnward-') && key !== name);
      await Promise.all(others.slice(0, -1).map((key) => caches.delete(key)));
      await self.clients.claim();
    }),
  );
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  const asked = request.mode === 'navigate' ? './' : request;
  event.respondWith(
    caches
      .match(asked, { ignoreSearch: true, cacheName: name })
      .then((kept) => kept ?? caches.match(asked, { ignoreSearch: true }))
      .then((kept) => kept ?? fetch(request)),
  );
});
`;
