import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { parseJob } from '@underlap/job/parse-job';
import { seamTaskOf } from '@underlap/job/split-stage';
import { planSeams } from '@underlap/seam/plan-seams';
import { provePlan } from '@underlap/seam/proof';
import type { Limit } from '@underlap/seam/task';
import { recogniseParts } from '@underlap/stack/recognise';
import { expect, it } from 'vitest';

const samples = fileURLToPath(new URL('../samples', import.meta.url));

/** The seam task of a sample's backer, on its own bed or another. */
function backerTask(name: string, limits?: readonly Limit[]) {
  const text = readFileSync(`${samples}/${name}.svg`, 'utf8');
  const job = parseJob(readFileSync(`${samples}/${name}.job.json`, 'utf8'), name);
  const sign = recogniseParts(readArtwork(text, { name }), { mode: 'auto' });
  const task = seamTaskOf(sign, sign.parts[0]!, job, []);
  return limits === undefined ? task : { ...task, limits };
}

it('the first sample is split in two on its bed, fully hidden and proven', async () => {
  const task = backerTask('harbour-sign');
  const outcome = await planSeams(task, { seed: 1 });
  if (outcome.kind !== 'split') throw new Error(`expected a split, got ${outcome.kind}`);
  const [plan] = outcome.plans;
  expect(plan!.pieces).toHaveLength(2);
  expect(plan!.visibleLengthMm).toBe(0);
  expect(plan!.provenFewest).toBe(true);
  expect(provePlan(task, plan!, 'full')).toEqual([]);
});

it('every sample is split validly on three beds, without a thin corner', async () => {
  for (const name of ['harbour-sign', 'round-sign', 'wide-sign']) {
    for (const [width, height] of [
      [520, 320],
      [400, 400],
      [300, 200],
    ] as const) {
      const task = backerTask(name, [{ name: 'bed', width, height }]);
      const outcome = await planSeams(task, { seed: 1 }, 'quick');
      if (outcome.kind !== 'split') throw new Error(`${name}: expected a split, got ${outcome.kind}`);
      for (const plan of outcome.plans) expect(provePlan(task, plan, 'full')).toEqual([]);
      if (width === 400) expect(outcome.plans[0]!.pieces.length).toBeLessThanOrEqual(3);
    }
  }
});
