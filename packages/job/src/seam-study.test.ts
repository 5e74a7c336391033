import { expect, it } from 'vitest';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { type SeamRow, savingOf, seamConclusion, studySeams, wayWords } from './seam-study.ts';
import { seamStudyCsv } from './seam-study-csv.ts';

/** A hoop of 406 mm with a boat in it: whole, each takes a board of its own; in quarters they lie in one another. */
const HOOP = `<svg xmlns="http://www.w3.org/2000/svg" width="412mm" height="412mm" viewBox="0 0 412 412">
<path id="hoop" fill="#23395b" fill-rule="evenodd" d="M3 206a203 203 0 1 0 406 0a203 203 0 1 0 -406 0ZM33 206a173 173 0 1 0 346 0a173 173 0 1 0 -346 0Z"/>
<path id="boat" fill="#ffffff" d="M170 190L240 190L230 220L180 220Z"/>
</svg>`;

const job = jobFrom(
  {
    bed: '430x430',
    boards: [{ width: 430, height: 430, price: 7 }],
    batch: 4,
    effort: 'quick',
    artwork: { text: HOOP, name: 'hoop' },
  },
  'hoop',
);

it('tells what a joint more saves: a hoop in quarters takes fewer boards, and all it costs', {
  timeout: 300_000,
}, async () => {
  const pipeline = new Pipeline();
  const made: string[] = [];
  const rows = await studySeams(job, {}, { pipeline, onRow: (row) => made.push(wayWords(row)) });
  expect(rows.map(wayWords)).toEqual(['as it is', 'hoop in 2 pieces', 'hoop in 3 pieces', 'hoop in 4 pieces']);
  expect(made).toEqual(rows.map(wayWords));
  const [base, , , quarters] = rows as [SeamRow, SeamRow, SeamRow, SeamRow];
  // The job as it is is what a plan of it would be.
  const planned = await pipeline.nest(job);
  expect(base.boards).toBe(planned!.flatMap(({ layout }) => layout.sheets).length);
  expect(base).toMatchObject({ boards: 4, joints: 0, showingMm: 0, boardsPrice: 28, problem: null });
  expect(quarters.boards).toBeLessThanOrEqual(3);
  const saving = savingOf(quarters, base);
  expect(saving.joints).toBe(4);
  expect(saving.boardsPrice).toBeCloseTo(7 * saving.boards, 9);
  // Four radial seams of 30 mm and their knobs, in sight.
  expect(saving.showingMm).toBeGreaterThan(120);
  expect(saving.minutesPerSign).toBeLessThan(0);
  expect(seamConclusion(rows)).toMatch(/^Hoop in \d pieces: \d boards instead of 4, for \d joints more a sign, /);
  // What was written into the job is what the row says.
  const taken = jobFrom({ ...JSON.parse(JSON.stringify(job)), seams: { parts: { hoop: { morePieces: 3 } } } }, 'hoop');
  const designs = await pipeline.designs(taken);
  expect(designs[0]!.split.parts.find(({ partId }) => partId === 'hoop')!.pieces).toHaveLength(quarters.pieces);
  expect(seamStudyCsv(rows).trim().split('\r\n')).toHaveLength(5);
});

/** A plate that has to be split: two pieces with some seam in sight, or three with hardly any. */
const OVAL = `<svg xmlns="http://www.w3.org/2000/svg" width="580mm" height="400mm" viewBox="-290 -200 580 400">
<ellipse id="plate" rx="280" ry="200" fill="#7fb2c8"/><rect id="banner" x="-200" y="-40" width="400" height="80" fill="#23395b"/>
</svg>`;

it('tries the other plans of a part that has to be split, and claims nothing that they do not show', {
  timeout: 300_000,
}, async () => {
  const oval = jobFrom(
    { bed: '520x320', boards: ['520x320'], effort: 'quick', artwork: { text: OVAL, name: 'oval' } },
    'oval',
  );
  const pipeline = new Pipeline();
  const rows = await studySeams(oval, {}, { pipeline });
  const [{ split }] = (await pipeline.designs(oval)) as [Awaited<ReturnType<Pipeline['designs']>>[0]];
  const outcome = split.parts.find(({ partId }) => partId === 'plate')!.outcome;
  if (outcome.kind !== 'split') throw new Error('the plate is too large for its bed');
  const others = outcome.plans.slice(1);
  expect(others.length).toBeGreaterThan(0);
  for (const plan of others) {
    const row = rows.find(({ part, wish }) => part === 'plate' && wish?.plan === plan.id)!;
    expect(row).toMatchObject({ pieces: plan.pieces.length, joints: plan.seams.length, problem: null });
    expect(row.showingMm).toBeCloseTo(plan.visibleLengthMm - plan.ledLengthMm, 9);
  }
  const fewest = Math.min(...rows.map(({ boards }) => boards));
  expect(seamConclusion(rows).startsWith('No other way')).toBe(fewest === rows[0]!.boards);
});
