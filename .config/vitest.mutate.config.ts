import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** What a mutation run repeats thousands of times: the tests of one area, named by `mutate.mjs`. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: [process.env.MUTATION_TESTS ?? 'packages/{geometry,shop}/src/*.test.ts'],
    exclude: ['**/node_modules/**', '**/*.soak.test.ts'],
    testTimeout: 60_000,
  },
});
