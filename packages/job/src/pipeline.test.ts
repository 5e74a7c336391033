import { nest } from '@underlap/nest/nest';
import { describe, expect, it } from 'vitest';
import { studyBatches } from './batch-study.ts';
import { compareLayouts } from './comparison.ts';
import type { StageName } from './context.ts';
import type { Job } from './document.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';

/** A plate too long for the bed below a plank that hides its seam, and a knob of their own kind. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="160mm" viewBox="0 0 420 160">
<rect id="plate" x="10" y="10" width="400" height="140" fill="#7fb2c8"/>
<rect id="plank" x="120" y="20" width="180" height="120" fill="#23395b"/>
</svg>`;

function jobWith(change: Record<string, unknown> = {}): Job {
  return jobFrom(
    {
      artwork: { text: SIGN, name: 'pier' },
      bed: '300x200',
      boards: ['300x200'],
      batch: 2,
      effort: 'quick',
      ...change,
    },
    'pier',
  );
}

const STAGES: readonly StageName[] = ['read', 'sign', 'split', 'cut', 'nest', 'check', 'files'];

/** What every stage hands on for a job, by stage. */
async function results(pipeline: Pipeline, job: Job): Promise<Record<StageName, unknown>> {
  return {
    read: await pipeline.read(job),
    sign: await pipeline.sign(job),
    split: await pipeline.split(job),
    cut: await pipeline.cut(job),
    nest: (await pipeline.nest(job))?.[0]?.nested,
    check: (await pipeline.check(job))[0],
    files: await pipeline.write(job),
  };
}

describe('the pipeline', () => {
  it('gives the very same objects for equal input, and those are what a planned job holds', async () => {
    const pipeline = new Pipeline();
    const first = await results(pipeline, jobWith());
    const again = await results(pipeline, structuredClone(jobWith()));
    for (const stage of STAGES) expect(again[stage], stage).toBe(first[stage]);
    const planned = await planJob(jobWith(), { pipeline });
    expect(planned.designs[0]?.sign).toBe(first.sign);
    expect(planned.stocks?.[0]?.nested).toBe(first.nest);
    expect(await pipeline.nest(jobWith())).toBe(planned.stocks);
    expect(planned.verdicts).toEqual([first.check]);
    const other = await results(new Pipeline(), jobWith());
    for (const stage of STAGES) expect(other[stage], stage).not.toBe(first[stage]);
  });

  // The stages that a change leaves alone.
  it.each<[string, Record<string, unknown>, readonly StageName[]]>([
    ['mark-up', { costs: { markUp: 2 } }, ['read', 'sign', 'split', 'cut', 'nest', 'check']],
    ['guides', { marks: { guides: false } }, ['read', 'sign', 'split', 'nest', 'check']],
    ['batch', { batch: 3 }, ['read', 'sign', 'split', 'cut']],
    ['spacing', { spacing: 3 }, ['read', 'sign', 'split']],
    ['kerf', { kerf: 0.3 }, ['read', 'sign']],
    ['bed', { bed: '320x200' }, ['read', 'sign']],
    ['colour key', { artwork: { text: SIGN, name: 'pier', colourKey: { '#23395b': 'paint' } } }, ['read']],
    ['artwork', { artwork: { text: SIGN.replace('height="140"', 'height="141"'), name: 'pier' } }, []],
  ])('redoes only what depends on the %s', async (_, change, kept) => {
    const pipeline = new Pipeline();
    const before = await results(pipeline, jobWith());
    const after = await results(pipeline, jobWith(change));
    expect(STAGES.filter((stage) => after[stage] === before[stage])).toEqual(kept);
  });

  it.each<[string, Record<string, unknown>]>([
    ['speeds', { costs: { speeds: { cut: 3 } } }],
    ['formats', { output: { formats: ['dxf'] } }],
    ['marks', { marks: { numbers: 'all', textHeight: 9 } }],
    ['kind of stock', { material: 'birch plywood' }],
  ])('writes what a fresh pipeline writes after a change of the %s, though the layout is kept', async (_, change) => {
    const pipeline = new Pipeline();
    const written = async (of: Pipeline, job: Job) => [...(await of.write(job, { seconds: () => 0 })).files];
    const before = await written(pipeline, jobWith());
    const after = await written(pipeline, jobWith(change));
    expect(after).not.toEqual(before);
    expect(after).toEqual(await written(new Pipeline(), jobWith(change)));
    expect(await written(pipeline, jobWith())).toEqual(before);
  });

  it.each(STAGES)('stops in the stage %s and comes to no later one; what is done is not lost', async (where) => {
    const pipeline = new Pipeline();
    const stop = new AbortController();
    const begun: StageName[] = [];
    const work = planJob(jobWith(), {
      pipeline,
      signal: stop.signal,
      onProgress: ({ stage }) => {
        if (begun.at(-1) !== stage) begun.push(stage);
        if (stage === where) stop.abort();
      },
    });
    await expect(work).rejects.toMatchObject({ code: 'cancelled' });
    expect(begun).toEqual(STAGES.slice(0, STAGES.indexOf(where) + 1));
    const { report } = await planJob(jobWith(), { pipeline });
    expect(report.check.ok).toBe(true);
  });

  it('hears a stop that comes from outside while a stage is at work', async () => {
    const stop = new AbortController();
    const begun: StageName[] = [];
    // Arrives as a task of the event loop, as a signal of the system or a message to a worker does.
    setTimeout(() => stop.abort(), 0);
    const work = planJob(jobWith(), { signal: stop.signal, onProgress: ({ stage }) => begun.push(stage) });
    await expect(work).rejects.toMatchObject({ code: 'cancelled' });
    expect(begun).not.toContain('files');
  });

  it('searches once for a plan, and not again for a layout that was found elsewhere', async () => {
    let searches = 0;
    const counting = () =>
      new Pipeline((problem, effort, context) => {
        searches++;
        return nest(problem, effort, context);
      });
    const pipeline = counting();
    const { files } = await planJob(jobWith(), { pipeline });
    await planJob(jobWith({ costs: { markUp: 3 } }), { pipeline });
    expect(searches).toBe(1);
    const later = counting();
    later.remember(await pipeline.foundFor(jobWith()));
    const planned = await planJob(jobWith(), { pipeline: later });
    expect(searches).toBe(1);
    expect(sheetsOf(planned.files)).toEqual(sheetsOf(files));
    later.forgetLayout(jobWith());
    await planJob(jobWith(), { pipeline: later });
    expect(searches).toBe(2);
  });

  it('serves studies too: the sign and its pieces are made once for all of them', async () => {
    const pipeline = new Pipeline();
    const job = jobWith();
    const { pieces } = await pipeline.cut(job);
    const rows = await studyBatches(job, [1, 2], {}, { pipeline });
    expect(rows.map((row) => row.unplaced)).toEqual([0, 0]);
    const axes = { boards: [{ width: 300, height: 200 }], turns: ['quarter' as const], batches: [2] };
    const [compared] = await compareLayouts(job, axes, {}, { pipeline });
    expect(compared?.stocks?.[0]?.pieces.map((piece) => piece.cutShape)).toEqual(pieces.map((piece) => piece.cutShape));
  });
});

function sheetsOf(files: ReadonlyMap<string, string | Uint8Array>): unknown[] {
  return [...files].filter(([name]) => name.endsWith('.svg'));
}
