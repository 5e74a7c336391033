/**
 * Within a package, folders import each other one way only. Tests may look at anything, so they are left out here; the directions
 * between packages are in dependency-cruiser.cjs.
 */
const { options } = require('./dependency-cruiser.cjs');

const folder = '^(packages|apps)/[^/]+/src/[^/]+';

module.exports = {
  forbidden: [
    {
      name: 'folders-import-one-way',
      severity: 'error',
      scope: 'folder',
      from: { path: folder },
      to: { path: folder, circular: true },
    },
  ],
  options: { ...options, exclude: { path: '(^|/)(dist|node_modules|out|testing)/|\\.(test|soak)\\.tsx?$' } },
};
