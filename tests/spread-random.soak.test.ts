import { expect, it } from 'vitest';
import { randomSpread, type SeatKind } from './support/random-spread.ts';
import { scoreSpread, sumOf } from './support/score-spread.ts';

const COUNT = Number(process.env.SPREAD_SIGNS ?? 60);
const FRESH = Number(process.env.SPREAD_SEED ?? Date.now() % 1e6);

it.each([
  ['exact', 0.02],
  ['noisy', 0.4],
  ['inset', 0.1],
] as const)('fresh spread drawings, %s', { timeout: 1_800_000 }, (kind: SeatKind, tolerance: number) => {
  const scores = Array.from({ length: COUNT }, (_, i) => {
    const seed = `fresh-${FRESH + i}`;
    const score = scoreSpread(randomSpread(seed, kind), tolerance);
    if (score.right < score.seats || score.matched > score.right) console.log(kind, seed, score);
    return score;
  });
  const { seats, matched, right } = sumOf(scores);
  console.log(`${kind}: recall ${right / seats}, precision ${right / matched} of ${seats}`);
  expect(right / seats).toBeGreaterThan(0.99);
  expect(right / matched).toBeGreaterThan(0.99);
});
