#!/usr/bin/env node
// The program is TypeScript and runs as it is: tsx strips the types, nothing is built.
import { register } from 'tsx/esm/api';

// Until the program itself listens: nothing is written yet, so there is nothing to take away.
const stopped = () => process.exit(130);
process.on('SIGINT', stopped);
process.on('SIGTERM', stopped);

register();
const { main } = await import('../src/main.ts');
const running = main(process.argv.slice(2));
process.off('SIGINT', stopped);
process.off('SIGTERM', stopped);
process.exitCode = await running;
