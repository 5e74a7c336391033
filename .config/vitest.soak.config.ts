import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: { include: ['**/*.soak.test.ts'], exclude: ['**/node_modules/**'], testTimeout: 3_600_000, maxWorkers: 2 },
});
