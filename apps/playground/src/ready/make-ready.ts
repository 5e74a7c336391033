import { parseJob } from '@underlap/job/parse-job';
import type { NestPool } from '@underlap/nest/pool';
import { knownKeys, NO_RESULTS } from '../state/results.ts';
import { Workbench } from '../workbench/workbench.ts';
import type { WorkEvent } from '../workers/events.ts';
import { toFlatJson } from './flat-json.ts';
import type { ReadySample } from './ready-sample.ts';

/**
 * Plan the first sample by the very stages that the page's worker runs, so that the page can show the result before its
 * worker has started. Run once by the build; the keys tell the worker that nothing has to be done again.
 * @param pool - threads to search in; their number changes the time it takes and nothing else.
 */
export async function makeReady(jobText: string, artworkText: string, pool: NestPool): Promise<string> {
  const parsed = parseJob(jobText, 'the sample');
  const job = { ...parsed, artwork: { ...parsed.artwork, text: artworkText } };
  const events: WorkEvent[] = [];
  await new Workbench(pool).plan(job, knownKeys(NO_RESULTS), null, (event) => events.push(event));
  const failed = events.find((event) => event.kind === 'failed');
  if (failed?.kind === 'failed') throw new Error(`the sample cannot be planned: ${failed.fault.message}`);
  // the files need a canvas for their pictures, which a build has not: the page makes them when it has started
  const found = events.flatMap((event) => (event.kind === 'found' ? [event.found] : []))[0] ?? null;
  const ready: ReadySample = {
    job,
    found,
    done: events.filter((event) => event.kind === 'done' && event.stage !== 'files'),
  };
  return toFlatJson(ready);
}
