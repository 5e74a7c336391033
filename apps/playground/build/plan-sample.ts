import { readFileSync } from 'node:fs';
import { nodePool } from '@underlap/nest/node-pool';
import { makeReady } from '../src/ready/make-ready.ts';

// Run by ready-sample.ts in a process of its own; what it writes to standard output becomes part of the page.
const text = (name: string): string => readFileSync(new URL(`../../../samples/${name}`, import.meta.url), 'utf8');
const pool = nodePool();
const ready = await makeReady(text('harbour-sign.job.json'), text('harbour-sign.svg'), pool);
await pool.close();
process.stdout.write(ready);
