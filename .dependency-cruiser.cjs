/** Which ring may know which. Each rule speaks to the person whose import it stops. */

const ring = (name, sentence, allowed) => ({
  name: `${name}-looks-inwards`,
  severity: 'error',
  comment: sentence,
  from: { path: `^src/${name}/` },
  to: { path: '^src/', pathNot: [name, ...allowed].map((each) => `^src/${each}/`) },
});

module.exports = {
  forbidden: [
    {
      name: 'domain-is-pure',
      severity: 'error',
      comment:
        'src/domain takes values and returns values. Pass in what this import was to fetch (a row, the time, a ' +
        'file) as a parameter; only decimal.js and temporal-polyfill may be imported from outside.',
      from: { path: '^src/domain/' },
      to: { pathNot: ['^src/domain/', '(^|/)node_modules/(decimal\\.js|temporal-polyfill)/'] },
    },
    ring(
      'storage',
      'storage keeps what the domain describes and knows nobody else. Move the rule to src/domain, or let the ' +
        'room that needs both call them in turn.',
      ['domain'],
    ),
    ring(
      'printing',
      'printing turns values into paper and never looks them up. Let the room read them and hand them over.',
      ['domain'],
    ),
    ring(
      'web',
      'web serves every room alike, so it may know none of them, nor how the server is put together. Take what ' +
        'differs as a parameter.',
      ['storage', 'printing', 'domain'],
    ),
    ring(
      'rooms',
      'Nobody imports app: it puts the rooms together. What a room needs from outside comes through its module.',
      ['web', 'storage', 'printing', 'domain'],
    ),
    {
      name: 'rooms-keep-their-doors-shut',
      severity: 'error',
      comment:
        'A room never imports another room. Link to it by URL; what both need belongs to the domain or to storage.',
      from: { path: '^src/rooms/([^/]+)/' },
      to: { path: '^src/rooms/', pathNot: '^src/rooms/$1/' },
    },
    {
      name: 'main-is-the-front-door',
      severity: 'error',
      comment: 'src/main.ts only starts the server. What you need from it belongs to src/app.',
      from: { path: '^src/.+/' },
      to: { path: '^src/main\\.ts$' },
    },
    {
      name: 'no-package-for-development',
      severity: 'error',
      comment: 'The running server has no development packages. Move it to "dependencies", or do without.',
      from: { path: '^src/' },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['npm', 'type-only'] },
    },
    {
      name: 'imports-lead-somewhere',
      severity: 'error',
      comment: 'This import leads nowhere. A relative import ends in .js even where the file is .ts.',
      from: { path: '^src/' },
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.js', '.mjs', '.cjs', '.json'],
    },
  },
};
