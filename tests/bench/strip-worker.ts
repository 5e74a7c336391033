import { parentPort } from 'node:worker_threads';
import { runStrip, type StripOrder } from './strip-run.ts';

parentPort?.on('message', (order: StripOrder) => parentPort?.postMessage(runStrip(order)));
