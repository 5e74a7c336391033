import { convexHull } from '@underlap/geometry/hull';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import { expect, it } from 'vitest';
import { circle, rectangle, regionOf } from '../testing/fixtures.ts';
import { likelyGoesIn } from './goes-in.ts';
import { type StraightCut, straightCuts } from './straight-cuts.ts';

const bed = (width: number, height: number) => ({
  limits: [{ name: 'bed' as const, width, height }],
  kerf: 0.2,
  band: 6,
  reach: 10,
});

const plank = regionOf(rectangle(0, 0, 900, 180)).outer;
const disc = regionOf(circle(0, 0, 203)).outer;

it.each([
  // Columns across the plank, the knobs of each beyond its own cut.
  ['a plank of 900 on 300 x 200', plank, bed(300, 200), 4],
  ['a plank of 900 on 500 x 200', plank, bed(500, 200), 2],
  ['a disc of 406 on 400 x 400', disc, bed(400, 400), 2],
])('%s', (_, ring, task, pieces) => {
  const plan = straightCuts(ring, task, 8)!;
  expect(plan.pieces).toBe(pieces);
  const sides = sidesOf(ring, plan.cuts);
  expect(sides).toHaveLength(pieces);
  // Wherever in its band a cut is made, what it leaves goes in.
  for (const side of sides) expect(likelyGoesIn(convexHull(side), task.limits, task.kerf)).toBe(true);
});

it('finds nothing where even the area is too large, or nothing is wanted of more pieces', () => {
  expect(straightCuts(plank, bed(300, 200), 2)).toBeNull();
  expect(straightCuts(plank, bed(300, 200), 3)).toBeNull();
});

/** The sides of a tree of cuts, each cut in the middle of its band. */
function sidesOf(ring: Ring, tree: StraightCut | null): Ring[] {
  if (tree === null) return [ring];
  const middle = (tree.from + tree.to) / 2;
  const side = (sign: number): Ring => {
    const [ux, uy] = [sign * Math.cos(tree.angle), sign * Math.sin(tree.angle)];
    const out: number[] = [];
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const here = sign * middle - ring[i]! * ux - ring[i + 1]! * uy;
      const next = sign * middle - ring[j]! * ux - ring[j + 1]! * uy;
      if (here >= 0) out.push(ring[i]!, ring[i + 1]!);
      if (here >= 0 === next >= 0) continue;
      const share = here / (here - next);
      out.push(ring[i]! + share * (ring[j]! - ring[i]!), ring[i + 1]! + share * (ring[j + 1]! - ring[i + 1]!));
    }
    return Float64Array.from(out);
  };
  const [below, above] = [side(1), side(-1)];
  expect(ringArea(below) + ringArea(above)).toBeCloseTo(ringArea(ring), 3);
  return [...sidesOf(below, tree.below), ...sidesOf(above, tree.above)];
}
