import { parentPort } from 'node:worker_threads';
import { searchThread } from './search-thread.ts';

const port = parentPort;
port?.on(
  'message',
  searchThread((message) => port.postMessage(message)),
);
