import { flattenContour } from '@underlap/geometry/flatten';
import { type Ring, ringBounds } from '@underlap/geometry/ring';
import type { Face } from './arrangement.ts';
import { faceFields, partFields } from './fields.ts';
import { type Halves, halfPlane } from './halves.ts';
import { cheapestRoute } from './route.ts';
import { joined, solveGreedily } from './search.ts';
import { breathe, type CutPlan, facesOf, type PlannedCut, type SearchGround, sideOf } from './search-ground.ts';
import { smoothRoute } from './smooth.ts';
import { outlineSamples, type Terminal, terminalsOf } from './terminals.ts';

/** Openings narrower than this are slots or screw holes: no seam ends on those, mm. */
const LEAST_OPENING_MM = 60;

/** A pair of seams stays within this of the line through the opening's middle, mm. */
const BAND_MM = 40;

/** Pairs that are solved to the end. */
const MOST_TRIED = 4;

/**
 * Plans for rings and frames: two seams at once, from the outline into an opening and on from its other side.
 * @returns the best of a few, or null when no opening is large enough or no pair of seams fits.
 * @remarks Twelve turns for each opening, two routings each; then both sides are solved without branching.
 */
export async function planThroughOpening(search: SearchGround): Promise<CutPlan | null> {
  const ground = withOpenings(search);
  if (ground === null) return null;
  const [whole] = facesOf(ground.shape, []);
  const pairs = pairsOf(ground, whole!);
  let best: CutPlan | null = null;
  for (const { cuts, cost } of pairs.sort((a, b) => a.cost - b.cost).slice(0, MOST_TRIED)) {
    await breathe(ground.context.signal);
    const left = sideOf(facesOf(ground.shape, cuts), 0, true);
    const leftPlan = left === null ? null : await solveGreedily(ground, cuts, left);
    if (leftPlan === null) continue;
    const right = sideOf(facesOf(ground.shape, leftPlan.cuts), 0, false);
    const rightPlan = right === null ? null : await solveGreedily(ground, leftPlan.cuts, right);
    if (rightPlan === null) continue;
    const plan = { ...joined({ cost, bareMm: 0 }, leftPlan, rightPlan), throughOpening: true };
    if (best === null || plan.pieces < best.pieces || (plan.pieces === best.pieces && plan.cost < best.cost))
      best = plan;
  }
  return best;
}

/** The same ground with openings as plain edges, not as obstacles to keep away from; null without openings. */
function withOpenings(search: SearchGround): SearchGround | null {
  const holes = search.task.region.holes;
  if (!holes.some(isOpening)) return null;
  const obstacles = search.ground.obstacles.filter((ring) => !holes.includes(ring) || !isOpening(ring));
  const ground = { ...search.ground, obstacles };
  return {
    ...search,
    ground,
    coarse: partFields(ground, search.sizes, search.coarse.grid.step),
    fine: partFields(ground, search.sizes, search.fine.grid.step),
  };
}

function isOpening(ring: Ring): boolean {
  const box = ringBounds(ring);
  return Math.min(box.maxX - box.minX, box.maxY - box.minY) >= LEAST_OPENING_MM;
}

function pairsOf(ground: SearchGround, whole: Face): { cuts: PlannedCut[]; cost: number }[] {
  const { shape, sizes, fine } = ground;
  const edgeClear = 0.6 * sizes.web + 1;
  const fields = faceFields(fine, whole, sizes, edgeClear);
  const outer = terminalsOf(outlineSamples(whole, shape, [], [], sizes), fields, sizes, edgeClear, false);
  const out: { cuts: PlannedCut[]; cost: number }[] = [];
  shape.holes.forEach((hole, index) => {
    const ring = flattenContour(hole, 0.1);
    if (!isOpening(ring)) return;
    const box = ringBounds(ring);
    const x = (box.minX + box.maxX) / 2;
    const y = (box.minY + box.maxY) / 2;
    const inner = terminalsOf(
      outlineSamples(holeLoop(ground, index + 1), shape, [], [], sizes),
      fields,
      sizes,
      edgeClear,
      false,
    );
    for (let deg = 0; deg < 180; deg += 15) {
      const ex = Math.cos((deg * Math.PI) / 180);
      const ey = Math.sin((deg * Math.PI) / 180);
      const middle = -ey * x + ex * y;
      const halves: Halves = {
        a: halfPlane(-ey, ex, middle + BAND_MM),
        b: halfPlane(ey, -ex, BAND_MM - middle),
        pieces: 2,
      };
      const isBefore = (terminal: Terminal) => (terminal.x - x) * ex + (terminal.y - y) * ey < 0;
      const cuts: PlannedCut[] = [];
      let cost = 0;
      for (const [sources, targets] of [
        [outer.filter(isBefore), inner.filter(isBefore)],
        [inner.filter((terminal) => !isBefore(terminal)), outer.filter((terminal) => !isBefore(terminal))],
      ] as const) {
        if (sources.length === 0 || targets.length === 0) break;
        const route = cheapestRoute(fields, halves, 1, sources, targets);
        const smooth = route === null ? null : smoothRoute(fields, halves, route, 1, sizes);
        if (route === null || smooth === null) break;
        cuts.push({ spine: smooth.spine, from: route.from.end, to: route.to.end });
        cost += smooth.cost;
      }
      if (cuts.length === 2) out.push({ cuts, cost });
    }
  });
  return out;
}

/** The edge of an opening in the form of a face's loop, so that it can be sampled like one. */
function holeLoop(ground: SearchGround, contour: number): Face {
  const curve = ground.shape.holes[contour - 1]!;
  const origins = curve.segments.map((_, segment) => ({ segment, u0: 0, u1: 1 }));
  const line = flattenContour(curve, 0.1);
  const edge = { id: 0, curve, cut: -1, s0: 0, s1: 0, contour, origins, line };
  return { loop: [{ edge, forward: true }], outer: line, holes: [], holeRings: [] };
}
