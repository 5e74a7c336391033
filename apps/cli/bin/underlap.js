#!/usr/bin/env node
// As packed, the program is plain JavaScript in dist; in the repository it is TypeScript and runs as it is through tsx.
import { existsSync } from 'node:fs';

// Until the program itself listens: nothing is written yet, so there is nothing to take away.
const stopped = () => process.exit(130);
process.on('SIGINT', stopped);
process.on('SIGTERM', stopped);

const { main } = await program();
const running = main(process.argv.slice(2));
process.off('SIGINT', stopped);
process.off('SIGTERM', stopped);
process.exitCode = await running;

async function program() {
  const built = new URL('../dist/main.js', import.meta.url);
  if (existsSync(built)) return import(built.href);
  const { register } = await import('tsx/esm/api');
  register();
  return import('../src/main.ts');
}
