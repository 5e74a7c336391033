import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Unit tests and the quick ones that span packages: what a mutation run repeats thousands of times. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: [
      'packages/{geometry,seam,job}/src/*.test.ts',
      'packages/nest/src/check/*.test.ts',
      'tests/reference/geometry.test.ts',
    ],
    exclude: ['**/node_modules/**', '**/*.soak.test.ts'],
    testTimeout: 60_000,
  },
});
