import type { Point } from '@underlap/geometry/point';
import type { FaceFields } from './fields.ts';
import { cellAt, sampleField } from './grid.ts';
import { depthIn, type Halves } from './halves.ts';
import type { Terminal } from './terminals.ts';

/** One stretch of a way: from outline to outline, or to and from the edge of an opening. */
export interface RouteLeg {
  readonly from: Terminal;
  readonly to: Terminal;
  /** The outline point, the end of the run-up, cells in between, and the same at the other end. */
  readonly points: readonly Point[];
  readonly cost: number;
}

/** A way through a face before smoothing: one leg, or several with an opening between each two. */
export interface Route {
  readonly legs: readonly RouteLeg[];
  readonly cost: number;
  /** A point it has to pass, for seams that were pinned. */
  readonly via: Point | null;
}

/** An opening of the face: a way that reaches its edge may go on from any other place of it. */
export interface Portal {
  readonly terminals: readonly Terminal[];
}

/** What every opening on a way is charged: each makes one more seam, with ends and knobs of its own; as much as 5 mm that show. */
const PORTAL_COST = 100;

/** A way leaves an opening at least this far from where it came in, mm. */
const PORTAL_APART_MM = 20;

/** No mm of seam costs less than this: buckets of the queue are as wide as one step. */
const LEAST_MM_COST = 1;

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

/** What a search may know or leave out. */
export interface RouteHelp {
  /** Ways that cost this much or more are of no interest. */
  readonly limit?: number;
  /** Openings that the way may pass. */
  readonly portals?: readonly Portal[];
  /** Cells the way has to keep to, 1 or 0 each. */
  readonly corridor?: Uint8Array;
}

/**
 * Cheapest way from one of `sources` to one of `targets` that keeps `inset` inside both halves.
 * @returns null when every way is blocked.
 * @remarks Dijkstra on the grid, O(cells); openings are nodes like any other, their edges tied together.
 */
export function cheapestRoute(
  fields: FaceFields,
  halves: Halves,
  inset: number,
  sources: readonly Terminal[],
  targets: readonly Terminal[],
  help: RouteHelp = {},
): Route | null {
  return searchGrid(fields, halves, inset, sources, targets, help);
}

/** Cells within `around` mm of a way: what a finer search for the same way need look at. */
export function corridorOf({ grid }: FaceFields, points: readonly Point[], around: number): Uint8Array {
  const { cols, rows, step, x0, y0 } = grid;
  const out = new Uint8Array(cols * rows);
  const reach = Math.ceil(around / step);
  for (const { x, y } of points) {
    const c0 = Math.round((x - x0) / step);
    const r0 = Math.round((y - y0) / step);
    for (let r = Math.max(0, r0 - reach); r <= Math.min(rows - 1, r0 + reach); r++) {
      out.fill(1, r * cols + Math.max(0, c0 - reach), r * cols + Math.min(cols, c0 + reach + 1));
    }
  }
  return out;
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
  const first = searchGrid(fields, halves, inset, sources, [stop], {});
  if (first === null) return null;
  const cost = fields.cost.slice();
  const { grid } = fields;
  const [before] = first.legs;
  for (const { x, y } of before!.points) {
    if (Math.hypot(x - pin.x, y - pin.y) < 3 * grid.step) continue;
    for (const [dx, dy] of [[0, 0], ...STEPS]) {
      const cell = cellAt(grid, x + dx! * grid.step, y + dy! * grid.step);
      if (cell >= 0) cost[cell] = cost[cell]! * SPUR_COST;
    }
  }
  const second = searchGrid({ ...fields, cost }, halves, inset, [stop], targets, {});
  if (second === null) return null;
  const [after] = second.legs;
  const points = [...before!.points.slice(0, -1), ...after!.points.slice(1)];
  const total = first.cost + second.cost;
  return { legs: [{ from: before!.from, to: after!.to, points, cost: total }], cost: total, via: pin };
}

/** How the edge of an opening, or the far outline, was reached. */
interface Arrival {
  readonly cost: number;
  /** Over the grid, from the cell on; or straight across, from a terminal of the opening with that index (-1: from the sources). */
  readonly by:
    | { readonly kind: 'grid'; readonly cell: number }
    | { readonly kind: 'straight'; readonly at: number; readonly from: Terminal };
  readonly to: Terminal;
}

function searchGrid(
  fields: FaceFields,
  halves: Halves,
  inset: number,
  sources: readonly Terminal[],
  targets: readonly Terminal[],
  { limit = Infinity, portals = [], corridor }: RouteHelp,
): Route | null {
  const { grid, cost, memory } = fields;
  const { cols, step } = grid;
  memory.begin(step * LEAST_MM_COST);
  const { dist, from, queue, goal: goalOf, number: thisSearch } = memory;
  const planes = Float64Array.of(...halves.a, ...halves.b);
  for (let i = 2; i < planes.length; i += 3) planes[i] = planes[i]! - inset;
  const { known, open, barred } = memory;
  const mayEnter = (cell: number) => (corridor === undefined || corridor[cell] === 1) && isOpen(fields, planes, cell);
  const isAllowed = (cell: number) => {
    if (known[cell] !== open && known[cell] !== barred) memory.learn(cell, mayEnter(cell));
    return known[cell] === open;
  };
  // Goal -1 is the far outline, the others are openings.
  const goals = new Map<number, Map<number, Terminal>>();
  const addGoal = (terminal: Terminal, goal: number) => {
    const cell = leadCell(fields, terminal);
    if (cell < 0 || !isAllowed(cell)) return;
    const here = goals.get(cell) ?? new Map<number, Terminal>();
    const other = here.get(goal);
    if (other === undefined || terminal.cost < other.cost) here.set(goal, terminal);
    goals.set(cell, here);
    goalOf[cell] = thisSearch;
  };
  for (const target of targets) addGoal(target, -1);
  const usable = portals.map(({ terminals }) =>
    terminals.filter(({ x, y }) => depthIn(halves.a, x, y) >= 0 && depthIn(halves.b, x, y) >= 0),
  );
  usable.forEach((terminals, index) => {
    for (const terminal of terminals) addGoal(terminal, index);
  });

  const starts = new Map<number, { terminal: Terminal; at: number }>();
  const arrivals: (Arrival | null)[] = portals.map(() => null);
  const isOpened = portals.map(() => false);
  let best: Arrival | null = null;
  let bound = limit;
  const arrive = (goal: number, arrival: Arrival) => {
    if (arrival.cost >= bound) return;
    if (goal < 0) {
      best = arrival;
      bound = arrival.cost;
    } else if (!isOpened[goal] && arrival.cost < (arrivals[goal]?.cost ?? Infinity)) arrivals[goal] = arrival;
  };
  /** Everything that can be reached from the sources, or from an opening that was reached for `base`. */
  const leave = (at: number, terminals: readonly Terminal[], base: number) => {
    for (const terminal of terminals) {
      const cell = leadCell(fields, terminal);
      if (cell < 0 || !isAllowed(cell)) continue;
      const reached = base + terminal.cost;
      if (reached >= dist[cell]! || reached >= bound) continue;
      dist[cell] = reached;
      from[cell] = -1;
      starts.set(cell, { terminal, at });
      queue.push(reached, cell);
    }
    const across = (to: Terminal, goal: number) => {
      for (const terminal of terminals) {
        const dx = to.x - terminal.x;
        if (dx > STRAIGHT_MM || dx < -STRAIGHT_MM) continue;
        const price = straightCost(fields, halves, terminal, to);
        if (price < Infinity) arrive(goal, { cost: base + price, by: { kind: 'straight', at, from: terminal }, to });
      }
    };
    for (const target of targets) across(target, -1);
    usable.forEach((list, goal) => {
      if (goal !== at && !isOpened[goal]) for (const to of list) across(to, goal);
    });
  };
  leave(-1, sources, 0);

  // No cell a seam may use lies on the grid's rim, two cells wide: no step leaves the grid.
  const offsets = Int32Array.from(STEPS, ([dc, dr]) => dr * cols + dc);
  const halfSteps = Float64Array.from(STEPS, ([dc, dr]) => (step * Math.hypot(dc, dr)) / 2);
  for (;;) {
    let portal = -1;
    // Whatever is reached from now on costs at least this.
    let next = queue.floor();
    for (let index = 0; index < arrivals.length; index++) {
      const arrival = arrivals[index]!;
      if (arrival === null || isOpened[index] || arrival.cost > next) continue;
      next = arrival.cost;
      portal = index;
    }
    if (next >= bound) break;
    if (portal >= 0) {
      isOpened[portal] = true;
      const { to } = arrivals[portal]!;
      const far = usable[portal]!.filter(({ x, y }) => Math.hypot(x - to.x, y - to.y) >= PORTAL_APART_MM);
      leave(portal, far, next + PORTAL_COST);
      continue;
    }
    const entry = queue.pop();
    const key = queue.keyOf(entry);
    const cell = queue.cellOf(entry);
    if (key > dist[cell]!) continue;
    if (goalOf[cell] === thisSearch) {
      for (const [goal, terminal] of goals.get(cell)!) {
        arrive(goal, { cost: key + terminal.cost, by: { kind: 'grid', cell }, to: terminal });
      }
    }
    const most = bound;
    const own = cost[cell]!;
    for (let k = 0; k < offsets.length; k++) {
      const neighbour = cell + offsets[k]!;
      const state = known[neighbour]!;
      if (state === barred) continue;
      if (state !== open) memory.learn(neighbour, mayEnter(neighbour));
      // Infinite where no seam may run.
      const reached = key + halfSteps[k]! * (own + cost[neighbour]!);
      if (reached < dist[neighbour]! && reached < most && known[neighbour] === open) {
        dist[neighbour] = reached;
        from[neighbour] = cell;
        queue.push(reached, neighbour);
      }
    }
  }
  const end: Arrival | null = best;
  return end === null ? null : routeBack(fields, end, arrivals, starts);
}

/** The legs that led to an arrival, followed back through the openings. */
function routeBack(
  fields: FaceFields,
  last: Arrival,
  arrivals: readonly (Arrival | null)[],
  starts: ReadonlyMap<number, { terminal: Terminal; at: number }>,
): Route | null {
  const { grid, memory } = fields;
  const legs: RouteLeg[] = [];
  let arrival: Arrival | null = last;
  while (arrival !== null) {
    if (legs.length > arrivals.length) return null;
    const { by, to }: Arrival = arrival;
    if (by.kind === 'straight') {
      const middle = { x: (by.from.x + to.x) / 2, y: (by.from.y + to.y) / 2 };
      const points = [{ x: by.from.x, y: by.from.y }, middle, { x: to.x, y: to.y }];
      legs.unshift({ from: by.from, to, points, cost: 0 });
      arrival = by.at < 0 ? null : arrivals[by.at]!;
      continue;
    }
    const cells: Point[] = [];
    let cell = by.cell;
    for (;;) {
      cells.push({
        x: grid.x0 + (cell % grid.cols) * grid.step,
        y: grid.y0 + Math.floor(cell / grid.cols) * grid.step,
      });
      if (memory.from[cell]! < 0) break;
      cell = memory.from[cell]!;
    }
    cells.reverse();
    const { terminal: first, at } = starts.get(cell)!;
    const points = [
      { x: first.x, y: first.y },
      leadEnd(first),
      ...cells.slice(1, -1),
      ...(cells.length > 1 ? [leadEnd(to)] : []),
      { x: to.x, y: to.y },
    ];
    legs.unshift({ from: first, to, points, cost: 0 });
    arrival = at < 0 ? null : arrivals[at]!;
  }
  // Legs share the price of the whole by their length: what each is compared with when it is refined.
  const lengths = legs.map(({ points }) =>
    points.reduce(
      (sum, point, k) => sum + (k > 0 ? Math.hypot(point.x - points[k - 1]!.x, point.y - points[k - 1]!.y) : 0),
      0,
    ),
  );
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const priced = legs.map((leg, k) => ({ ...leg, cost: (last.cost * lengths[k]!) / total }));
  return { legs: priced, cost: last.cost, via: null };
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

/** Short seams hold few knobs: a straight one must be a good deal cheaper than a way round. */
const STRAIGHT_COST = 20;

/** Across narrow places: straight from outline to outline, square enough at both ends; Infinity where there is no such way. */
function straightCost(fields: FaceFields, halves: Halves, from: Terminal, to: Terminal): number {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const squared = dx * dx + dy * dy;
  if (squared > STRAIGHT_MM * STRAIGHT_MM || squared < 1) return Infinity;
  const size = Math.sqrt(squared);
  if ((dx * from.nx + dy * from.ny) / size < STRAIGHT_LEAN) return Infinity;
  if (-(dx * to.nx + dy * to.ny) / size < STRAIGHT_LEAN) return Infinity;
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
    if (!isFree) return Infinity;
    cost += (each * size) / steps;
  }
  return cost + STRAIGHT_COST;
}

function leadEnd(terminal: Terminal): Point {
  return { x: terminal.x + terminal.lead * terminal.nx, y: terminal.y + terminal.lead * terminal.ny };
}

function leadCell({ grid }: FaceFields, { x, y, nx, ny, lead }: Terminal): number {
  return cellAt(grid, x + lead * nx, y + lead * ny);
}
