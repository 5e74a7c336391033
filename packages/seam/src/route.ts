import type { Point } from '@underlap/geometry/point';
import type { FaceFields } from './fields.ts';
import { cellAt, sampleField } from './grid.ts';
import { depthIn, type Halves } from './halves.ts';
import type { Terminal } from './terminals.ts';

/** A way through a face before smoothing. */
export interface Route {
  readonly from: Terminal;
  readonly to: Terminal;
  /** The outline point, the end of the run-up, cells in between, and the same at the other end. */
  readonly points: readonly Point[];
  readonly cost: number;
  /** A point it has to pass, for seams that were pinned. */
  readonly via: Point | null;
}

/** The two ends of a straight seam may be this far apart, mm: across a narrow place there is no room for run-ups. */
const STRAIGHT_MM = 60;

/** A straight seam may lean from square to the outline by this much. */
const STRAIGHT_LEAN = Math.cos((26 * Math.PI) / 180);

/** Steps of the sixteen-neighbour lattice; the error of a path's length is below 2.8 % (eight neighbours: 8 %). */
const STEPS: readonly (readonly [number, number])[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
  [2, 1],
  [2, -1],
  [-2, 1],
  [-2, -1],
  [1, 2],
  [1, -2],
  [-1, 2],
  [-1, -2],
];

/**
 * Cheapest way from one of `sources` to one of `targets` that keeps `inset` inside both halves.
 * @param limit - ways that cost this much or more are of no interest.
 * @returns null when every way is blocked.
 * @remarks Dijkstra on the grid, O(cells log cells).
 */
export function cheapestRoute(
  fields: FaceFields,
  halves: Halves,
  inset: number,
  sources: readonly Terminal[],
  targets: readonly Terminal[],
  limit = Infinity,
): Route | null {
  const straight = cheapestStraight(fields, halves, sources, targets);
  const routed = searchGrid(fields, halves, inset, sources, targets, Math.min(limit, straight?.cost ?? Infinity));
  return routed ?? straight;
}

/** Going back along the first half of a pinned way costs this much more: the two halves must not share a stretch. */
const SPUR_COST = 12;

/** Cheapest way through a given point; null when it cannot be reached from both ends. Two searches. */
export function routeVia(
  fields: FaceFields,
  halves: Halves,
  inset: number,
  sources: readonly Terminal[],
  targets: readonly Terminal[],
  pin: Point,
): Route | null {
  const { end } = sources[0]!;
  const outline = new Float64Array();
  const stop: Terminal = { sample: -1, x: pin.x, y: pin.y, nx: 0, ny: 0, end, lead: 0, cost: 0, outline };
  const first = searchGrid(fields, halves, inset, sources, [stop], Infinity);
  if (first === null) return null;
  const cost = fields.cost.slice();
  const { grid } = fields;
  for (const { x, y } of first.points) {
    if (Math.hypot(x - pin.x, y - pin.y) < 3 * grid.step) continue;
    for (const [dx, dy] of [[0, 0], ...STEPS]) {
      const cell = cellAt(grid, x + dx! * grid.step, y + dy! * grid.step);
      if (cell >= 0) cost[cell] = cost[cell]! * SPUR_COST;
    }
  }
  const second = searchGrid({ ...fields, cost }, halves, inset, [stop], targets, Infinity);
  if (second === null) return null;
  const points = [...first.points.slice(0, -1), ...second.points.slice(1)];
  return { from: first.from, to: second.to, points, cost: first.cost + second.cost, via: pin };
}

function searchGrid(
  fields: FaceFields,
  halves: Halves,
  inset: number,
  sources: readonly Terminal[],
  targets: readonly Terminal[],
  limit: number,
): Route | null {
  const { grid, cost, memory } = fields;
  const { cols, step } = grid;
  memory.begin();
  const { dist, from, heap } = memory;
  const planes = Float64Array.of(...halves.a, ...halves.b);
  for (let i = 2; i < planes.length; i += 3) planes[i] = planes[i]! - inset;
  const { known, open, barred } = memory;
  const isAllowed = (cell: number) => {
    if (known[cell] !== open && known[cell] !== barred) memory.learn(cell, isOpen(fields, planes, cell));
    return known[cell] === open;
  };
  const goals = new Map<number, Terminal>();
  for (const target of targets) {
    const cell = leadCell(fields, target);
    if (cell < 0 || !isAllowed(cell)) continue;
    const other = goals.get(cell);
    if (other === undefined || target.cost < other.cost) goals.set(cell, target);
  }
  if (goals.size === 0) return null;
  const starts = new Map<number, Terminal>();
  for (const source of sources) {
    const cell = leadCell(fields, source);
    if (cell < 0 || !isAllowed(cell) || source.cost >= dist[cell]! || source.cost >= limit) continue;
    dist[cell] = source.cost;
    starts.set(cell, source);
    heap.push(source.cost, cell);
  }
  // No cell a seam may use lies on the grid's rim, two cells wide: no step leaves the grid.
  const offsets = Int32Array.from(STEPS, ([dc, dr]) => dr * cols + dc);
  const halfSteps = Float64Array.from(STEPS, ([dc, dr]) => (step * Math.hypot(dc, dr)) / 2);
  let best = limit;
  let bestCell = -1;
  while (heap.size > 0) {
    const key = heap.topKey();
    if (key >= best) break;
    const cell = heap.pop();
    if (key > dist[cell]!) continue;
    const goal = goals.get(cell);
    if (goal !== undefined && key + goal.cost < best) {
      best = key + goal.cost;
      bestCell = cell;
    }
    const own = cost[cell]!;
    for (let k = 0; k < offsets.length; k++) {
      const next = cell + offsets[k]!;
      const state = known[next]!;
      if (state === barred) continue;
      if (state !== open) memory.learn(next, isOpen(fields, planes, next));
      // Infinite where no seam may run.
      const reached = key + halfSteps[k]! * (own + cost[next]!);
      if (reached < dist[next]! && reached < best && known[next] === open) {
        dist[next] = reached;
        from[next] = cell;
        heap.push(reached, next);
      }
    }
  }
  if (bestCell < 0) return null;
  const cells: Point[] = [];
  let cell = bestCell;
  for (;;) {
    cells.push({ x: grid.x0 + (cell % cols) * step, y: grid.y0 + Math.floor(cell / cols) * step });
    if (from[cell]! < 0) break;
    cell = from[cell]!;
  }
  cells.reverse();
  const first = starts.get(cell)!;
  const last = goals.get(bestCell)!;
  const points = [
    { x: first.x, y: first.y },
    leadEnd(first),
    ...cells.slice(1, -1),
    ...(cells.length > 1 ? [leadEnd(last)] : []),
    { x: last.x, y: last.y },
  ];
  return { from: first, to: last, points, cost: best, via: null };
}

/** May a seam run through the cell: free, off the grid's rim, and inside every half-plane? */
function isOpen({ grid, cost }: FaceFields, planes: Float64Array, cell: number): boolean {
  if (!(cost[cell]! < Infinity)) return false;
  const c = cell % grid.cols;
  const r = Math.floor(cell / grid.cols);
  if (c < 2 || r < 2 || c >= grid.cols - 2 || r >= grid.rows - 2) return false;
  const x = grid.x0 + c * grid.step;
  const y = grid.y0 + r * grid.step;
  for (let i = 0; i < planes.length; i += 3) {
    if (planes[i + 2]! - planes[i]! * x - planes[i + 1]! * y < 0) return false;
  }
  return true;
}

/** Across narrow places: straight from outline to outline, square enough at both ends. */
function cheapestStraight(
  fields: FaceFields,
  halves: Halves,
  sources: readonly Terminal[],
  targets: readonly Terminal[],
): Route | null {
  let best: Route | null = null;
  for (const from of sources) {
    for (const to of targets) {
      const dx = to.x - from.x;
      const dy = to.y - from.y;
      const size = Math.hypot(dx, dy);
      if (size > STRAIGHT_MM || size < 1) continue;
      if ((dx * from.nx + dy * from.ny) / size < STRAIGHT_LEAN) continue;
      if (-(dx * to.nx + dy * to.ny) / size < STRAIGHT_LEAN) continue;
      const steps = Math.ceil(size / 2);
      let cost = 0;
      for (let k = 1; k < steps; k++) {
        const x = from.x + (dx * k) / steps;
        const y = from.y + (dy * k) / steps;
        const nearest = (Math.min(k, steps - k) * size) / steps;
        const edge = sampleField(fields.grid, fields.edge, x, y);
        const each = sampleField(fields.grid, fields.part.cost, x, y);
        const isFree =
          each < Infinity &&
          edge > Math.min(0.6 * nearest, 4) - 0.3 * fields.grid.step &&
          depthIn(halves.a, x, y) >= 0 &&
          depthIn(halves.b, x, y) >= 0;
        if (!isFree) {
          cost = Infinity;
          break;
        }
        cost += (each * size) / steps;
      }
      // Short seams hold few knobs: they must be a good deal cheaper than a way round.
      cost += 20;
      if (cost < (best?.cost ?? Infinity)) {
        const middle = { x: from.x + dx / 2, y: from.y + dy / 2 };
        best = { from, to, points: [{ x: from.x, y: from.y }, middle, { x: to.x, y: to.y }], cost, via: null };
      }
    }
  }
  return best;
}

function leadEnd(terminal: Terminal): Point {
  return { x: terminal.x + terminal.lead * terminal.nx, y: terminal.y + terminal.lead * terminal.ny };
}

function leadCell(fields: FaceFields, terminal: Terminal): number {
  const { x, y } = leadEnd(terminal);
  return cellAt(fields.grid, x, y);
}
