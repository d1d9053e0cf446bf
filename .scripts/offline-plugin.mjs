import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';

/**
 * A Vite plugin. Writes sw.js beside the built page: on the first visit it keeps every file of the build, and from then on the page opens
 * from there, without a network. Another build is another cache; it takes over when the last page of the old one is closed.
 */
export function offline() {
  let folder = '';
  return {
    name: 'offline',
    apply: (_config, { mode }) => mode !== 'cli',
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

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(name).then((cache) => cache.addAll(files)));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((all) =>
        Promise.all(all.filter((key) => key.startsWith('firnward-') && key !== name).map((key) => caches.delete(key))),
      )
      .then(() => self.clients.claim()),
  );
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  const asked = request.mode === 'navigate' ? './' : request;
  event.respondWith(
    caches.match(asked, { ignoreSearch: true, cacheName: name }).then((kept) => kept ?? fetch(request)),
  );
});
`;
