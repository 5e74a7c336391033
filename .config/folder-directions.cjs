/**
 * Within a package, folders import each other one way only. Tests may look at anything, so they are left out here; the directions
 * between packages are in dependency-cruiser.cjs.
 */
const { options } = require('./dependency-cruiser.cjs');

const folder = '^(packages|apps)/[^/]+/src/[^/]+';
/** Folders of the page that still import each other; each goes from here when it no longer does. */
const unmended = '^apps/playground/src/(state|storage|workers|picture|scene)$';

module.exports = {
  forbidden: [
    {
      name: 'folders-import-one-way',
      severity: 'error',
      scope: 'folder',
      from: { path: folder, pathNot: unmended },
      to: { path: folder, pathNot: unmended, circular: true },
    },
  ],
  options: { ...options, exclude: { path: '(^|/)(dist|node_modules|out|testing)/|\\.(test|soak)\\.tsx?$' } },
};
