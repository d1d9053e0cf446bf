const { mayImport, home } = require('./.architecture.cjs');
const inSrc = (path) => `^src/${path.replaceAll('.', '[.]')}(/|$)`;
// Also what tests alone use: bytes in memory, the schema that is published, heights compared on opening.
const entry =
  '^src/(main|worker/[^/]+[.]worker|cli/firnward|core/files/raster/byte-source|core/files/project-json-schema|core/line/track-against-ground)[.]ts$';
const error = (name, from, to) => ({ name, severity: 'error', from, to });

module.exports = {
  forbidden: [
    ...Object.entries(mayImport).map(([folder, allowed]) =>
      error(
        `${folder} imports ${allowed.length ? 'only ' + allowed.join(', ') : 'nothing'}`,
        { path: inSrc(folder) },
        { path: '^src/', pathNot: [folder, ...allowed].map(inSrc) },
      ),
    ),
    ...Object.entries(home).map(([library, places]) =>
      error(
        `${library} lives in ${places.join(', ')}`,
        { path: '^src/', pathNot: places.map(inSrc) },
        { path: `(^|/)node_modules/${library}(/|$)` },
      ),
    ),
    error(
      'every folder is in .architecture.cjs',
      {
        path: '^src/.+/',
        pathNot: [...Object.keys(mayImport).map(inSrc), '^src/app/[^/]+[.](svelte|ts|css)$'],
      },
      {},
    ),
    // A view of a tree draws its own branches.
    error('no circles', { pathNot: '^src/app/sheet/MarkupView[.]svelte$' }, { circular: true }),
    error('the core needs no Node', { path: '^src/core/' }, { dependencyTypes: ['core'] }),
    error('nothing unresolved', {}, { couldNotResolve: true }),
    error(
      'no file is unused',
      { path: entry },
      { path: '^src/.*[.](ts|svelte)$', pathNot: [entry, '[.]d[.]ts$'], reachable: false },
    ),
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '[?]worker|virtual:' },
    tsPreCompilationDeps: true, // types count as imports
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'svelte', 'browser', 'default', 'types'],
    },
  },
};
