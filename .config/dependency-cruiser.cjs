/** Imports point one way: geometry <- {artwork, stack, seam, nest, shop} <- job <- apps. `stack` may use artwork, `shop` both; `strip` builds on nest. */
const only = (name, from, allowed) => ({
  name,
  severity: 'error',
  from: { path: from },
  to: { path: '^(packages|apps|tests)/', pathNot: [from, ...allowed] },
});
const source = (name) => `^packages/${name}/`;

module.exports = {
  forbidden: [
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
    only('geometry-knows-nothing', source('geometry'), []),
    only('artwork-knows-geometry', source('artwork'), [source('geometry')]),
    only('stack-knows-geometry-and-artwork', source('stack'), [source('geometry'), source('artwork')]),
    only('lettering-knows-geometry-and-artwork', source('lettering'), [source('geometry'), source('artwork')]),
    only('seam-knows-geometry', source('seam'), [source('geometry')]),
    only('nest-knows-geometry', source('nest'), [source('geometry')]),
    only('strip-knows-the-nester', source('strip'), [source('nest')]),
    only('shop-knows-the-sign', source('shop'), [source('geometry'), source('artwork'), source('stack')]),
    only('job-knows-packages', source('job'), ['^packages/(?!strip/)']),
    only('cli-knows-packages', '^apps/cli/', ['^packages/(?!strip/)']),
    only('playground-knows-packages', '^apps/playground/', ['^packages/(?!strip/)']),
    {
      name: 'clipper-behind-one-adapter',
      severity: 'error',
      from: { pathNot: '^packages/geometry/src/clipper(\\.test)?\\.ts$' },
      to: { path: 'clipper-lib' },
    },
    {
      name: 'flatten-behind-one-adapter',
      severity: 'error',
      from: { pathNot: '^packages/geometry/src/exact(\\.test)?\\.ts$' },
      to: { path: '@flatten-js/core' },
    },
    {
      name: 'packages-never-touch-node',
      severity: 'error',
      from: { path: '^packages/', pathNot: '(\\.test\\.ts|node-pool\\.ts|node-worker\\.ts)$' },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'not-to-unresolvable', severity: 'error', from: {}, to: { couldNotResolve: true, pathNot: '^virtual:' } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)(dist|node_modules|out)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'],
    },
  },
};
