import type { SearchTask } from '@underlap/nest/improve/search-task';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { faultOf } from '../workers/fault.ts';
import { searchPool } from './search-pool.ts';

/** A worker whose script cannot be loaded. */
class BrokenWorker extends EventTarget {
  static ended = 0;

  postMessage(): void {
    queueMicrotask(() => this.dispatchEvent(Object.assign(new Event('error'), { message: 'no such script' })));
  }

  terminate(): void {
    BrokenWorker.ended += 1;
  }
}

describe('threads of the search', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('says in a sentence that a thread broke down, and ends it', async () => {
    vi.stubGlobal('Worker', BrokenWorker);
    const run = searchPool(2).run({} as SearchTask, {});
    const fault = await run.then(() => null, faultOf);
    expect(fault).toEqual({
      code: 'internal',
      message: 'The search could not go on: one of its threads could not be started or broke down (no such script).',
      place: null,
    });
    expect(BrokenWorker.ended).toBe(1);
  });
});
