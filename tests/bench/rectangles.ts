/**
 * What a maker gets without nesting: the same pieces packed by their bounding boxes with a general-purpose rectangle packer
 * (maxrects-packer, a development dependency), beside Underlap's layouts of the sample and ten generated signs.
 * With --split-for the pieces are those of a smaller bed, laid out on whole boards all the same.
 * Run: npx tsx tests/bench/rectangles.ts [--effort normal] [--signs 10] [--split-for 300x200] [--turns quarter]
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { regionArea, regionBounds } from '@underlap/geometry/region';
import { cutStage } from '@underlap/job/cut-stage';
import { designsOf } from '@underlap/job/designs';
import type { Job } from '@underlap/job/document';
import { jobPiecesOf } from '@underlap/job/job-pieces';
import { nestProblemOf } from '@underlap/job/nest-stage';
import { jobFrom } from '@underlap/job/parse-job';
import { readStage } from '@underlap/job/read-stage';
import { signStage } from '@underlap/job/sign-stage';
import { splitStage } from '@underlap/job/split-stage';
import { checkLayout } from '@underlap/nest/check/check-layout';
import { nest } from '@underlap/nest/nest';
import { nodePool } from '@underlap/nest/node-pool';
import type { Effort, NestProblem } from '@underlap/nest/problem';
import { MaxRectsPacker } from 'maxrects-packer/dist/maxrects-packer.mjs';
import { randomSign } from '../support/random-sign.ts';

const { values } = parseArgs({
  options: {
    effort: { type: 'string', default: 'normal' },
    signs: { type: 'string', default: '10' },
    'split-for': { type: 'string', default: '520x320' },
    turns: { type: 'string' },
  },
});
const [bedWidth, bedHeight] = values['split-for'].split('x').map(Number);
const splitBed = { width: bedWidth!, height: bedHeight! };
const bed = { width: 520, height: 320 };
const effort = (Number.isFinite(Number(values.effort)) ? Number(values.effort) : values.effort) as Effort;

interface Case {
  readonly name: string;
  readonly job: Job;
  readonly artwork: string;
}

const sample = new URL('../../samples/harbour-sign', import.meta.url);
const cases: Case[] = [
  {
    name: 'sample',
    job: jobFrom(
      { ...JSON.parse(readFileSync(new URL(`${sample.href}.job.json`), 'utf8')), bed },
      'harbour-sign.job.json',
    ),
    artwork: readFileSync(new URL(`${sample.href}.svg`), 'utf8'),
  },
];
for (let seed = 1; cases.length <= Number(values.signs); seed++) {
  const sign = randomSign(seed, 320 + 20 * (seed % 8), 260 + 15 * (seed % 6));
  const job = {
    artwork: { file: 'sign.svg' },
    bed,
    boards: [{ width: 508, height: 305 }],
    batch: 4,
    ...(values.turns === undefined ? {} : { turns: { default: values.turns } }),
  };
  cases.push({ name: `sign ${seed}`, job: jobFrom(job, 'sign'), artwork: sign.svg });
}

const pool = nodePool();
let [sumBoxes, sumOurs] = [0, 0];
for (const { name, job, artwork } of cases) {
  const small = { ...job, bed: { ...job.bed, ...splitBed } };
  const sign = signStage(readStage(artwork, small), small);
  const split = await splitStage(sign, small, { seed: 1 });
  const problem = nestProblemOf(
    jobPiecesOf([{ design: designsOf(job)[0]!, pieces: await cutStage(split, sign, small) }], job),
    job,
  );
  const big = largePieces(problem);
  const began = performance.now();
  const { layout, lowerBound } = await nest(problem, effort, { seed: 1, pool });
  const seconds = (performance.now() - began) / 1000;
  const boxes = byBoxes(problem);
  const complete = layout.unplaced.length === 0 && boxes.left === 0;
  if (complete) {
    sumBoxes += boxes.boards;
    sumOurs += layout.sheets.length;
  }
  const verdict = checkLayout(problem, layout).ok ? 'valid' : 'INVALID';
  console.log(
    `${name.padEnd(8)} boxes ${boxes.boards} boards, yield ${percent(boxes.yield)}  |  nested ${layout.sheets.length} boards (bound ${lowerBound.boards}), yield ${percent(layout.yield)}, last board ${percent(layout.sheets.at(-1)?.yield ?? 0)}, pieces of over half a board ${big.count} with ${percent(big.share)} of the area, ${seconds.toFixed(1)} s, ${verdict}${complete ? '' : `  (${layout.unplaced.length} pieces fit no board: not summed)`}`,
  );
}
await pool.close();
console.log(`sum: ${sumBoxes} boards by boxes, ${sumOurs} nested: ${percent(1 - sumOurs / sumBoxes)} saved`);

/** Pieces as boxes, quarter turns allowed where the part allows them, spacing between and margin around. */
function byBoxes(problem: NestProblem): { boards: number; yield: number; left: number } {
  const board = regionBounds(problem.stock[0]!.outline);
  const { spacing, margin } = problem.rules;
  const packer = new MaxRectsPacker(board.maxX, board.maxY, spacing, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: true,
    border: margin,
  });
  let area = 0;
  let left = 0;
  for (const part of problem.pieces) {
    const b = regionBounds(part.region);
    const [width, height] = [b.maxX - b.minX, b.maxY - b.minY];
    const room = [board.maxX - 2 * margin, board.maxY - 2 * margin].sort((p, q) => q - p);
    for (let copy = 0; copy < part.quantity; copy++) {
      if (Math.max(width, height) > room[0]! || Math.min(width, height) > room[1]!) {
        left++;
        continue;
      }
      area += regionArea(part.region);
      packer.add(width, height, { allowRotation: part.turns !== 'fixed' && part.turns !== 'half' });
    }
  }
  return { boards: packer.bins.length, yield: area / (packer.bins.length * board.maxX * board.maxY), left };
}

/** Copies whose box takes more than half of a board: no two of them share one as boxes. */
function largePieces({ pieces, stock }: NestProblem): { count: number; share: number } {
  const board = regionBounds(stock[0]!.outline);
  let count = 0;
  let area = 0;
  let all = 0;
  for (const { region, quantity } of pieces) {
    const { minX, minY, maxX, maxY } = regionBounds(region);
    const isLarge = (maxX - minX) * (maxY - minY) > (board.maxX * board.maxY) / 2;
    all += quantity * regionArea(region);
    if (!isLarge) continue;
    count += quantity;
    area += quantity * regionArea(region);
  }
  return { count, share: area / all };
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
