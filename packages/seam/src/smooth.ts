import type { Point } from '@underlap/geometry/point';
import type { Ring } from '@underlap/geometry/ring';
import { cornerDepth } from './corner.ts';
import { type FaceFields, LED_STEPS } from './fields.ts';
import { sampleField } from './grid.ts';
import { depthIn, type Halves } from './halves.ts';
import { nearestOnLines } from './lead-lines.ts';
import type { RouteLeg } from './route.ts';
import type { SeamSizes } from './sizes.ts';
import { roundedPolyline, type Spine, spineSamples } from './spine.ts';
import { MOST_DEPTH, type Terminal, THIN_CORNER_COST } from './terminals.ts';

/** At most this many nodes take part in the straightening: its cost grows with their cube. */
const MOST_NODES = 64;

/** Distance wanted between nodes, mm. */
const NODE_MM = 5;

/** Corners may turn by this much at most. */
const MOST_TURN = (100 * Math.PI) / 180;

/** A seam may lean from square to the outline by this much at its ends. */
const LEAST_SQUARE = Math.cos((24 * Math.PI) / 180);

/** A seam made smooth. */
export interface SmoothRoute {
  readonly spine: Spine;
  readonly cost: number;
}

/**
 * One leg of a route as few straight lines with rounded corners, cheapest by the same cost as the route.
 * @param lines - drawn lines that seams may follow: nodes beside one are moved onto it.
 * @param via - a point the seam has to pass.
 * @returns null when no smooth line keeps clear of everything.
 * @remarks Dynamic programming over nodes with the last leg as state, O(nodes^3) time and O(nodes^2) space; then the best of
 * several corner radii.
 */
export function smoothRoute(
  fields: FaceFields,
  halves: Halves,
  route: RouteLeg,
  inset: number,
  sizes: SeamSizes,
  lines: readonly Ring[] = [],
  via: Point | null = null,
): SmoothRoute | null {
  const nodes = ontoLines(thinned(route.points, via), lines, LED_STEPS * fields.grid.step);
  const legs = bestLegs(fields, halves, route, nodes, inset, sizes, via);
  if (legs === null) return null;
  let best: SmoothRoute | null = null;
  for (const radius of [sizes.bend * 1.6, sizes.bend, 25, 16, sizes.leastBend]) {
    const { spine, leastRadius } = roundedPolyline(legs, radius, 3);
    if (leastRadius < sizes.leastBend - 1e-9) continue;
    if (via !== null && !passesNear(spine, via)) continue;
    const cost = spineCost(fields, halves, spine, inset, Math.max(route.from.lead, route.to.lead));
    // Generous bends look better and leave room for knobs: a smaller one must save something.
    const total = cost + 60 / Math.min(radius, sizes.bend);
    if (total < (best?.cost ?? Infinity)) best = { spine, cost: total };
  }
  return best;
}

/** Rounding a corner must not carry a pinned seam away from its pin by more than this, mm. */
const PIN_SLACK_MM = 4;

function passesNear(spine: Spine, pin: Point): boolean {
  const samples = spineSamples(spine, 1);
  for (let k = 0; k < samples.length; k += 3) {
    if (Math.hypot(samples[k + 1]! - pin.x, samples[k + 2]! - pin.y) <= PIN_SLACK_MM) return true;
  }
  return false;
}

/** Cost of a spine; Infinity when it enters a place where no seam may run. */
export function spineCost(fields: FaceFields, halves: Halves, spine: Spine, inset: number, lead: number): number {
  const samples = spineSamples(spine, Math.max(1, fields.grid.step / 2));
  const count = samples.length / 3;
  const each = spine.length / (count - 1);
  let cost = 0;
  for (let k = 1; k + 1 < count; k++) {
    const s = samples[3 * k]!;
    const isEnd = Math.min(s, spine.length - s) <= lead + 0.5;
    const price = placeCost(fields, halves, samples[3 * k + 1]!, samples[3 * k + 2]!, inset, isEnd);
    if (!(price < Infinity)) return Infinity;
    cost += price * each;
  }
  return cost;
}

function placeCost(fields: FaceFields, halves: Halves, x: number, y: number, inset: number, isEnd: boolean): number {
  // Run-ups cross the strip along the outline where seams are otherwise not wanted.
  const price = sampleField(fields.grid, isEnd ? fields.part.cost : fields.cost, x, y);
  if (!(price < Infinity)) return Infinity;
  const least = isEnd ? 0 : inset - fields.grid.step;
  if (depthIn(halves.a, x, y) < least || depthIn(halves.b, x, y) < least) return Infinity;
  return price;
}

/** A first leg that leans must not leave a thin corner where a square one does not. */
function endCost(end: Terminal, way: Point, sizes: SeamSizes): number {
  return cornerDepth(end.outline, end, way, sizes.leastDisc) > MOST_DEPTH ? THIN_CORNER_COST : 0;
}

function thinned(points: readonly Point[], via: Point | null): Point[] {
  const lengths = [0];
  for (let i = 1; i < points.length; i++) {
    lengths.push(lengths[i - 1]! + Math.hypot(points[i]!.x - points[i - 1]!.x, points[i]!.y - points[i - 1]!.y));
  }
  const total = lengths[lengths.length - 1]!;
  const spacing = Math.max(NODE_MM, total / (MOST_NODES - 6));
  const out: Point[] = [];
  let next = 0;
  points.forEach((point, i) => {
    const isVia = via !== null && point.x === via.x && point.y === via.y;
    const isKept = i <= 1 || i >= points.length - 2 || isVia || lengths[i]! >= next;
    if (!isKept) return;
    const before = out[out.length - 1];
    if (before !== undefined && Math.hypot(point.x - before.x, point.y - before.y) < 1e-6) return;
    out.push(point);
    next = lengths[i]! + spacing;
  });
  return out;
}

/** Nodes beside a drawn line moved onto it; the run-ups at both ends stay where they are. */
function ontoLines(nodes: readonly Point[], lines: readonly Ring[], reach: number): readonly Point[] {
  if (lines.length === 0) return nodes;
  return nodes.map((node, k) =>
    k < 2 || k >= nodes.length - 2 ? node : (nearestOnLines(lines, node.x, node.y, reach) ?? node),
  );
}

function bestLegs(
  fields: FaceFields,
  halves: Halves,
  route: RouteLeg,
  nodes: readonly Point[],
  inset: number,
  sizes: SeamSizes,
  via: Point | null,
): Point[] | null {
  const n = nodes.length;
  const leg = (i: number, j: number) => i * n + j;
  const length = new Float64Array(n * n);
  const direction = new Float64Array(n * n);
  const price = new Float64Array(n * n).fill(Infinity);
  const sampling = Math.max(1.5, fields.grid.step * 0.8);
  const pinned = via === null ? -1 : nodes.findIndex((node) => node.x === via.x && node.y === via.y);
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      // No leg may skip the node at the pin.
      if (i < pinned && j > pinned) continue;
      const dx = nodes[j]!.x - nodes[i]!.x;
      const dy = nodes[j]!.y - nodes[i]!.y;
      const size = Math.hypot(dx, dy);
      if (size < 1) continue;
      length[leg(i, j)] = size;
      direction[leg(i, j)] = Math.atan2(dy, dx);
      if (i === 0 && (dx * route.from.nx + dy * route.from.ny) / size < LEAST_SQUARE) continue;
      if (j === n - 1 && -(dx * route.to.nx + dy * route.to.ny) / size < LEAST_SQUARE) continue;
      const steps = Math.max(1, Math.ceil(size / sampling));
      let sum = 0;
      for (let k = 0; k < steps; k++) {
        const u = (k + 0.5) / steps;
        const fromStart = i === 0 ? u * size : Infinity;
        const fromEnd = j === n - 1 ? (1 - u) * size : Infinity;
        const isEnd = fromStart <= route.from.lead || fromEnd <= route.to.lead;
        const x = nodes[i]!.x + u * dx;
        const y = nodes[i]!.y + u * dy;
        const near = (i === 1 && u * size < fields.grid.step) || (j === n - 2 && (1 - u) * size < fields.grid.step);
        const each = placeCost(fields, halves, x, y, inset, isEnd || near);
        sum += (each * size) / steps;
        if (!(sum < Infinity)) break;
      }
      if (!(sum < Infinity)) continue;
      const way = { x: dx / size, y: dy / size };
      if (i === 0) sum += endCost(route.from, way, sizes);
      if (j === n - 1) sum += endCost(route.to, { x: -way.x, y: -way.y }, sizes);
      price[leg(i, j)] = sum;
    }
  }
  // best[i -> j]: cheapest line from node 0 that ends with that leg.
  const best = new Float64Array(n * n).fill(Infinity);
  const cameFrom = new Int32Array(n * n).fill(-1);
  for (let j = 1; j < n; j++) best[leg(0, j)] = price[leg(0, j)]!;
  for (let i = 1; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const own = price[leg(i, j)]!;
      if (!(own < Infinity)) continue;
      for (let h = 0; h < i; h++) {
        const before = best[leg(h, i)]!;
        if (!(before + own < best[leg(i, j)]!)) continue;
        let turn = Math.abs(direction[leg(i, j)]! - direction[leg(h, i)]!);
        if (turn > Math.PI) turn = 2 * Math.PI - turn;
        if (turn > MOST_TURN) continue;
        const cut = sizes.leastBend * Math.tan(turn / 2);
        const roomIn = h === 0 ? length[leg(h, i)]! - 3 : length[leg(h, i)]! / 2;
        const roomOut = j === n - 1 ? length[leg(i, j)]! - 3 : length[leg(i, j)]! / 2;
        if (cut > roomIn || cut > roomOut) continue;
        const total = before + own + 3 + 25 * (turn / (Math.PI / 2)) ** 2;
        if (total < best[leg(i, j)]!) {
          best[leg(i, j)] = total;
          cameFrom[leg(i, j)] = h;
        }
      }
    }
  }
  let last = -1;
  let least = Infinity;
  for (let i = 0; i < n - 1; i++) {
    if (best[leg(i, n - 1)]! < least) {
      least = best[leg(i, n - 1)]!;
      last = i;
    }
  }
  if (last < 0) return null;
  const out = [nodes[n - 1]!];
  let i = last;
  let j = n - 1;
  for (;;) {
    out.push(nodes[i]!);
    const h = cameFrom[leg(i, j)]!;
    if (h < 0) break;
    j = i;
    i = h;
  }
  return out.reverse();
}
