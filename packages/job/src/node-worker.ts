import { parentPort } from 'node:worker_threads';
import type { SearchTask } from '@underlap/nest/improve/search-task';
import { searchThread } from '@underlap/nest/search-thread';
import { type DesignTask, isDesignTask, runDesignTask } from './design-task.ts';

// A thread of the command line: it splits and cuts designs, and searches for layouts.
const port = parentPort;
const search = searchThread((message) => port?.postMessage(message));

port?.on('message', async (task: SearchTask | DesignTask) => {
  if (!isDesignTask(task)) {
    search(task);
    return;
  }
  try {
    port.postMessage({ kind: 'other', outcome: await runDesignTask(task) });
  } catch (error) {
    port.postMessage({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
});
