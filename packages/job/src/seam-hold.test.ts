import { planSeams } from '@underlap/seam/plan-seams';
import type { SplitPlan } from '@underlap/seam/task';
import { describe, expect, it } from 'vitest';
import { jobFrom } from './parse-job.ts';
import { readStage } from './read-stage.ts';
import { seamHolds } from './seam-hold.ts';
import { signStage } from './sign-stage.ts';
import { landingOf, seamTaskOf } from './split-stage.ts';

const BACKER = '<rect id="backer" x="10" y="10" width="300" height="260" fill="#7fb2c8"/>';
const BANNER = '<rect id="banner" x="0" y="100" width="320" height="80" fill="#23395b"/>';
/** Two motifs that lift the banner off the backer. */
const POSTS =
  '<rect id="left" x="40" y="40" width="40" height="70" fill="#fff"/><rect id="right" x="240" y="40" width="40" height="70" fill="#fff"/>';

async function planOf(parts: string, fillers: 'none' | 'all' = 'none') {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" width="320mm" height="280mm" viewBox="0 0 320 280">${parts}</svg>`;
  const job = jobFrom({ artwork: { text, name: 'held', fillers }, bed: '310x180', boards: ['400x300'] }, 'held');
  const sign = signStage(readStage(text, job), job);
  const task = seamTaskOf(sign, sign.parts[0]!, job, []);
  const outcome = await planSeams(task, { seed: 1 }, 'quick');
  if (outcome.kind !== 'split') throw new Error(`expected a split, got ${outcome.kind}`);
  return { task, plan: outcome.plans[0]!, job };
}

const lengthOf = (plan: SplitPlan) => plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
const heldBy = (plan: SplitPlan) => plan.heldLengthMm / lengthOf(plan);

describe('a seam that is hidden', () => {
  it('is held where the banner lies on the backer, and not where motifs lift it off', async () => {
    const { plan: good } = await planOf(BACKER + BANNER);
    expect(good.hiddenLengthMm / lengthOf(good)).toBeGreaterThan(0.999);
    expect(heldBy(good)).toBeGreaterThan(0.95);
    const { plan: lifted } = await planOf(BACKER + POSTS + BANNER);
    expect(lifted.hiddenLengthMm / lengthOf(lifted)).toBeGreaterThan(0.9);
    expect(heldBy(lifted)).toBeLessThan(0.3);
  });

  it('is held again by a filler below the banner', async () => {
    const { task, plan } = await planOf(BACKER + POSTS + BANNER, 'all');
    expect(task.glue.map(({ partId }) => partId)).toEqual(['left', 'right', 'banner-filler-1']);
    expect(heldBy(plan)).toBeGreaterThan(0.9);
  });

  it('is held by rear plates only when they are cut', async () => {
    const { task, plan, job } = await planOf(BACKER + POSTS + BANNER);
    expect(plan.plates.length).toBeGreaterThan(0);
    const sumOf = (isPlated: boolean) =>
      seamHolds(plan, task.region, landingOf(job), isPlated).reduce((sum, hold) => sum + hold.heldMm, 0);
    expect(sumOf(false)).toBeCloseTo(plan.heldLengthMm, 9);
    expect(sumOf(true) / lengthOf(plan)).toBeGreaterThan(0.8);
    for (const hold of seamHolds(plan, task.region, landingOf(job), true)) {
      expect(hold.byPlateMm).toBeGreaterThan(0);
      expect(hold.heldMm).toBeCloseTo(
        hold.held.reduce((sum, [from, to]) => sum + to - from, 0),
        9,
      );
    }
  });
});
