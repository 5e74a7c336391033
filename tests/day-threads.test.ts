import { contentKey } from '@underlap/job/content-key';
import type { DesignThreads } from '@underlap/job/design-task';
import { DESIGNS_AND_SEARCH, designThreads } from '@underlap/job/design-threads';
import { jobFrom } from '@underlap/job/parse-job';
import { Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import { nodePool } from '@underlap/nest/node-pool';
import { afterAll, describe, expect, it } from 'vitest';

/** A plate that has to be split, a plank across it, a lamp. */
const sign = (
  width: number,
) => `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="160mm" viewBox="0 0 ${width} 160">
<rect id="plate" x="5" y="5" width="${width - 10}" height="150" fill="#7fb2c8"/>
<rect id="plank" x="5" y="50" width="${width - 10}" height="60" fill="#23395b"/>
<circle id="lamp" cx="60" cy="80" r="12" fill="#ffffff"/>
</svg>`;

const job = jobFrom(
  {
    name: 'day',
    bed: '200x240',
    boards: ['200x240'],
    effort: 'quick',
    designs: [300, 320, 110].map((width) => ({ id: `w${width}`, artwork: { text: sign(width), name: `w${width}` } })),
  },
  'day',
);

const pool = nodePool(2, DESIGNS_AND_SEARCH);
afterAll(() => pool.close());

/** Threads that count what they are asked for. */
function counted(threads: DesignThreads) {
  const asked: string[] = [];
  const counting: DesignThreads = {
    size: threads.size,
    make: (task, signal) => {
      asked.push(task.job.name ?? '');
      return threads.make(task, signal);
    },
  };
  return { asked, counting };
}

describe('large designs of a day made in threads', { timeout: 300_000 }, () => {
  it('come out as they do one after another, the largest first, small ones stay here, none is made twice', async () => {
    const { asked, counting } = counted(designThreads(pool));
    const pipeline = new Pipeline(undefined, counting);
    const threaded = await planJob(job, { pipeline });
    expect(asked).toEqual(['w320', 'w300']);
    const alone = await planJob(job);
    for (const [at, { split, pieces }] of alone.designs.entries()) {
      expect(contentKey(threaded.designs[at]!.split)).toBe(contentKey(split));
      expect(contentKey(threaded.designs[at]!.pieces)).toBe(contentKey(pieces));
    }
    const { seconds: _, ...report } = alone.report;
    expect({ ...threaded.report, seconds: undefined }).toEqual({ ...report, seconds: undefined });
    for (const [name, content] of alone.files)
      if (/\.svg$/.test(name)) expect(threaded.files.get(name)).toEqual(content);
    await planJob({ ...job, seed: job.seed, name: 'again' }, { pipeline });
    expect(asked).toHaveLength(2);
  });

  it('are made here where a thread cannot', async () => {
    const { asked, counting } = counted({ size: 2, make: () => Promise.reject(new Error('no thread')) });
    const { report } = await planJob(job, { pipeline: new Pipeline(undefined, counting) });
    expect(asked).toHaveLength(2);
    expect(report.check.ok).toBe(true);
  });

  it('stop when they are told to', async () => {
    const stop = new AbortController();
    const { counting } = counted({
      size: 2,
      make: () => {
        stop.abort();
        return Promise.resolve(null);
      },
    });
    const planned = planJob(job, { pipeline: new Pipeline(undefined, counting), signal: stop.signal });
    await expect(planned).rejects.toMatchObject({ code: 'cancelled' });
  });
});
