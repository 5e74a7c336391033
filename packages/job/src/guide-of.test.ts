import { describe, expect, it } from 'vitest';
import { guideOf } from './guide-of.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';
import { buildGuidePage } from './report-html/build-guide-page.ts';

/** A plate too long for the bed below a plank that hides its seam, and two equal floats on the plank. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="160mm" viewBox="0 0 420 160">
<rect id="plate" x="10" y="10" width="400" height="140" fill="#7fb2c8"/>
<rect id="plank" x="120" y="20" width="180" height="120" fill="#23395b"/>
<rect id="float-1" x="130" y="30" width="20" height="20" fill="#c0392b"/>
<rect id="float-2" x="250" y="30" width="20" height="20" fill="#c0392b"/>
</svg>`;

describe('the build guide of a planned sign', () => {
  const job = jobFrom(
    {
      artwork: { text: SIGN, name: 'pier' },
      bed: '300x200',
      boards: ['300x200'],
      effort: 'quick',
      shop: { glue: { name: 'fast glue', opensSeconds: 25 } },
    },
    'pier',
  );
  const pipeline = new Pipeline();
  const made = async () => {
    const { pieces } = await pipeline.cut(job);
    return guideOf({ sign: await pipeline.sign(job), split: await pipeline.split(job), pieces }, job);
  };

  it('calls pieces and seams as they are burnt', async () => {
    const { steps } = await made();
    expect(steps.map(({ kind, numbers }) => `${kind} ${numbers.join(' ')}`)).toEqual([
      'join 1a 1b',
      'paint 1a 1b 2 3 4',
      'lay 1a 1b',
      'lay 2',
      'lay 3 4',
    ]);
    expect(steps[0]!.words.join(' ')).toMatch(/Seam AA.* go(es)? (into 1[ab]|in together), straight down from above/);
    expect(steps[0]!.isHasty).toBe(true);
    // The plank has its burnt line, and is large; the floats have theirs, and need no care.
    expect(steps[3]!.care).toEqual(['it is large: lower it along one edge']);
    expect(steps[4]!.care).toEqual([]);
  });

  it('draws one picture a step: only what is down or comes on, with all numbers', async () => {
    const guide = await made();
    const page = buildGuidePage('Pier', guide, ['Never leave a running laser.']);
    const pictures = [...page.matchAll(/<svg[^>]*>.*?<\/svg>/gs)].map(([svg]) => svg);
    expect(pictures.length).toBe(guide.steps.length);
    const faces = pictures.map((svg) => svg.match(/fill-rule="evenodd" stroke=/g)?.length ?? 0);
    // Two halves; four parts and three faces that stay bare; the plate; plate, plank and one glued face; four parts and two glued faces.
    expect(faces).toEqual([2, 7, 1, 3, 6]);
    for (const [at, { kind, numbers }] of guide.steps.entries())
      if (kind !== 'paint') for (const number of numbers) expect(pictures[at]).toContain(`>${number}</text>`);
    expect(page).toContain('Never leave a running laser.');
    expect(page).toContain('Align before you glue.');
  });

  it('is what the report tells as the order of building, equal parts in one step though drawn apart', async () => {
    const text = SIGN.replace(
      '<rect id="float-2"',
      '<rect id="buoy" x="190" y="80" width="30" height="30" fill="#ffffff"/>\n<rect id="float-2"',
    );
    const own = jobFrom(
      { artwork: { text, name: 'pier' }, bed: '300x200', boards: ['300x200'], effort: 'quick' },
      'pier',
    );
    const { report } = await planJob(own, { pipeline });
    expect(report.buildOrder.map(({ part, step, onto }) => [part, step, onto])).toEqual([
      ['plate', 3, []],
      ['plank', 4, ['plate']],
      ['float-1', 5, ['plank']],
      ['float-2', 5, ['plank']],
      ['buoy', 6, ['plank']],
    ]);
  });
});
