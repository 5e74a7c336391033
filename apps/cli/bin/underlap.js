#!/usr/bin/env node
// The program is TypeScript and runs as it is: tsx strips the types, nothing is built.
import { register } from 'tsx/esm/api';

register();
const { main } = await import('../src/main.ts');
process.exitCode = await main(process.argv.slice(2));
