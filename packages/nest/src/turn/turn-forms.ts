import type { Ring } from '@underlap/geometry/ring';
import { EDGE, edgeRecords, isInsideEdges, squaredToEdge } from '../field/edges.ts';
import type { Model } from '../search/model.ts';
import { BeadChunks } from './bead-chunks.ts';
import { fillDistances } from './distance-grid.ts';

/** Points between the corners of an outline are no further apart than this share of the form's diameter. */
const POINT_GAP = 0.1;
/**
 * Samples of the outline, for depths that need not be exact: all points where they are few, else none nearer to the one before than this
 * share of the diameter unless the outline bends there by more than BEND (radians).
 */
const FEW_POINTS = 48;
const SAMPLE_GAP = 0.035;
const BEND = 0.5;
/** Corners sharper than this (cosine of the angle) get circles from the tip on: first and last distance as shares of the diameter. */
const SHARP = 0.5;
const FIRST_TIP = 0.012;
const LAST_TIP = 0.2;
const TIP_GROWTH = 1.6;

/** Circles within a form, at most; cells per side of the grid that their centres are looked for on. */
const MOST_CIRCLES = 8;
const CIRCLE_GRID = 32;
/** Circles smaller than this share of the largest are left out; a new centre keeps this many radii from those chosen. */
const LEAST_CIRCLE = 0.15;
const CIRCLE_SPREAD = 0.8;

/** Nodes per side of a form's grid of signed distances, and how far it reaches around the form's box (share of the diameter). */
export const SIDE = 80;
const MARGIN = 0.06;
/** Forms larger than this many mean diameters of the pieces have no grid. */
const LARGE = 3;
/** Numbers of a grid's header: x, y of the first node, nodes per unit in x and y. */
export const HEAD = 4;

/**
 * The forms of a search as free turns need them: points on the outline, circles within, edges, and a grid of signed distances.
 * Two forms overlap as deep as the deepest point or circle of one in the other, at any turn, without a no-fit polygon: turning is
 * turning the query.
 * @remarks While forms overlap slightly, or keep apart, the deepest (nearest) point is a convex corner of one of the two, or lies
 * between corners where sides are flush. Deep overlaps are seen by circles: of two alike that lie on each other no outline reaches
 * into the other. Grids are read bilinearly, so that they round off corners by a fraction of a cell; what must be exact asks the
 * edges.
 */
export class TurnForms {
  /** Points in the form's frame, x and y by turns; of form f from pointFrom[f] to pointFrom[f + 1] (indices of points). */
  readonly points: Float64Array;
  readonly pointFrom: Int32Array;
  /** Some of the points and the circles of tips, as many as rough depths need, in chunks: see `BeadChunks`. */
  readonly beads: Float64Array;
  readonly chunks: Float64Array;
  readonly chunkFrom: Int32Array;
  /** Circles within the form, x, y, radius by turns: the largest (up to `largeTo`), and rows of them into sharp tips. */
  readonly circles: Float64Array;
  readonly circleFrom: Int32Array;
  readonly largeTo: Int32Array;
  /** Corners of the convex hull, as the points. */
  readonly hull: Float64Array;
  readonly hullFrom: Int32Array;
  /** Edge records as of field/edges.ts; of form f from edgeFrom[f] to edgeFrom[f + 1] (indices of records). */
  readonly edges: Float64Array;
  readonly edgeFrom: Int32Array;
  /** For each edge the record before and after it on its ring. */
  readonly edgeBefore: Int32Array;
  readonly edgeAfter: Int32Array;
  /** Largest distance of a point from the frame's origin. */
  readonly radius: Float64Array;
  /** minX, minY, maxX, maxY of each form. */
  readonly box: Float64Array;
  /** Signed distances at nodes, positive inside, SIDE * SIDE for each form, and HEAD numbers for each. */
  readonly nodes: Float32Array;
  readonly head: Float64Array;
  /** How far a value of `roughly` may be from the truth, and how far the grid reaches beyond the form's box. */
  readonly slack: Float64Array;
  readonly margin: Float64Array;
  /** 1 for forms so much larger than the pieces that a grid would be too coarse: their edges are asked. */
  readonly isExact: Uint8Array;

  constructor(model: Model) {
    const points: number[] = [];
    const felt = new BeadChunks();
    const hull: number[] = [];
    const circles: number[] = [];
    const edges: number[] = [];
    const before: number[] = [];
    const after: number[] = [];
    const pointFrom = [0];
    const largeTo: number[] = [];
    const circleFrom = [0];
    const hullFrom = [0];
    const edgeFrom = [0];
    const count = model.forms.length;
    const spacing = model.forms[0]!.clearance;
    let mean = 0;
    for (const [pose] of model.itemPoses)
      mean += model.forms[model.poses[pose!]!.form]!.diameter / model.itemPoses.length;
    this.radius = new Float64Array(count);
    this.box = new Float64Array(4 * count);
    this.slack = new Float64Array(count);
    this.margin = new Float64Array(count);
    this.nodes = new Float32Array(SIDE * SIDE * count);
    this.head = new Float64Array(HEAD * count);
    this.isExact = Uint8Array.from(model.forms, ({ diameter }) => (diameter > LARGE * mean ? 1 : 0));
    model.forms.forEach(({ region, diameter, clearance }, form) => {
      const own: Float64Array[] = [];
      for (const ring of [region.outer, ...region.holes]) {
        const records = edgeRecords([ring]);
        const first = edges.length / EDGE;
        const n = records.length / EDGE;
        for (let e = 0; e < n; e++) {
          before.push(first + ((e + n - 1) % n));
          after.push(first + ((e + 1) % n));
        }
        for (const value of records) edges.push(value);
        const outline = outlinePoints(records, diameter);
        for (const value of outline) points.push(value);
        felt.add(asBeads(thinned(outline, SAMPLE_GAP * diameter)));
        own.push(records);
      }
      const records = Float64Array.from(own.flatMap((list) => [...list]));
      const box = [Infinity, Infinity, -Infinity, -Infinity];
      for (let r = 0; r < records.length; r += EDGE) {
        const [x, y] = [records[r]!, records[r + 1]!];
        this.radius[form] = Math.max(this.radius[form]!, Math.hypot(x, y));
        box[0] = Math.min(box[0]!, x);
        box[1] = Math.min(box[1]!, y);
        box[2] = Math.max(box[2]!, x);
        box[3] = Math.max(box[3]!, y);
      }
      this.box.set(box, 4 * form);
      for (const value of circlesWithin(records, box)) circles.push(value);
      largeTo.push(circles.length / 3);
      for (const ring of own) {
        for (const tip of tipCircles(ring, records, diameter)) {
          for (const value of tip) circles.push(value);
          felt.add(tip);
        }
      }
      felt.endForm();
      for (const value of convexHull(region.outer)) hull.push(value);
      if (this.isExact[form] === 0) this.#fillGrid(form, records, MARGIN * diameter + Math.max(clearance, spacing));
      pointFrom.push(points.length / 2);
      circleFrom.push(circles.length / 3);
      hullFrom.push(hull.length / 2);
      edgeFrom.push(edges.length / EDGE);
    });
    this.points = Float64Array.from(points);
    this.pointFrom = Int32Array.from(pointFrom);
    const packed = felt.packed();
    this.beads = packed.beads;
    this.chunks = packed.chunks;
    this.chunkFrom = packed.from;
    this.largeTo = Int32Array.from(largeTo);
    this.circles = Float64Array.from(circles);
    this.circleFrom = Int32Array.from(circleFrom);
    this.hull = Float64Array.from(hull);
    this.hullFrom = Int32Array.from(hullFrom);
    this.edges = Float64Array.from(edges);
    this.edgeFrom = Int32Array.from(edgeFrom);
    this.edgeBefore = Int32Array.from(before);
    this.edgeAfter = Int32Array.from(after);
  }

  /**
   * Signed distance of a point from a form's outline (positive inside), read from the grid.
   * @returns no more than it is by `slack` of the form; -Infinity beyond the grid, 0 for forms without one.
   */
  roughly(form: number, x: number, y: number): number {
    if (this.isExact[form] === 1) return 0;
    const h = HEAD * form;
    const gx = (x - this.head[h]!) * this.head[h + 2]!;
    const gy = (y - this.head[h + 1]!) * this.head[h + 3]!;
    if (!(gx >= 0 && gy >= 0 && gx <= SIDE - 1 && gy <= SIDE - 1)) return -Infinity;
    return this.nodes[SIDE * SIDE * form + ((gy + 0.5) | 0) * SIDE + ((gx + 0.5) | 0)]!;
  }

  /** Depth of the deepest circle or point of a form, turned by (c, s) and moved by t, in another; by all edges. */
  deepestExactly(of: number, within: number, c: number, s: number, tx: number, ty: number): number {
    const { points, pointFrom, circles, circleFrom } = this;
    let deepest = -Infinity;
    for (let k = 3 * circleFrom[of]!; k < 3 * circleFrom[of + 1]!; k += 3) {
      const [x, y] = [circles[k]!, circles[k + 1]!];
      deepest = Math.max(deepest, circles[k + 2]! + this.#inside(within, c * x - s * y + tx, s * x + c * y + ty));
    }
    for (let k = 2 * pointFrom[of]!; k < 2 * pointFrom[of + 1]!; k += 2) {
      const [x, y] = [points[k]!, points[k + 1]!];
      deepest = Math.max(deepest, this.#inside(within, c * x - s * y + tx, s * x + c * y + ty));
    }
    return deepest;
  }

  /** Signed distance of a point to a form's outline, positive inside. */
  #inside(form: number, x: number, y: number): number {
    const { edges, edgeFrom } = this;
    let least = Infinity;
    for (let e = edgeFrom[form]!; e < edgeFrom[form + 1]!; e++) {
      const d = squaredToEdge(edges, e * EDGE, x, y);
      if (d < least) least = d;
    }
    const distance = Math.sqrt(least);
    return isInsideEdges(edges, edgeFrom[form]!, edgeFrom[form + 1]!, x, y) ? distance : -distance;
  }

  #fillGrid(form: number, records: Float64Array, margin: number): void {
    const { nodes, head, box } = this;
    const b = 4 * form;
    const x0 = box[b]! - margin;
    const y0 = box[b + 1]! - margin;
    const stepX = (box[b + 2]! + margin - x0) / (SIDE - 1);
    const stepY = (box[b + 3]! + margin - y0) / (SIDE - 1);
    head.set([x0, y0, 1 / stepX, 1 / stepY], HEAD * form);
    this.slack[form] = Math.hypot(stepX, stepY) / 2;
    this.margin[form] = margin;
    const frame = { x0, y0, stepX, stepY, columns: SIDE, rows: SIDE };
    fillDistances(records, frame, nodes, SIDE * SIDE * form);
  }
}

/** Distance to the outline, positive inside. O(edges). */
function signedDistance(records: Float64Array, x: number, y: number): number {
  const count = records.length / EDGE;
  let least = Infinity;
  for (let e = 0; e < count; e++) {
    const d = squaredToEdge(records, e * EDGE, x, y);
    if (d < least) least = d;
  }
  return isInsideEdges(records, 0, count, x, y) ? Math.sqrt(least) : -Math.sqrt(least);
}

/** Convex corners of a ring and points between all of its corners. */
function outlinePoints(records: Float64Array, diameter: number): number[] {
  const out: number[] = [];
  const count = records.length / EDGE;
  for (let e = 0; e < count; e++) {
    const r = e * EDGE;
    const [x, y, dx, dy] = [records[r]!, records[r + 1]!, records[r + 2]!, records[r + 3]!];
    if (records[r + 6]! < 0) out.push(x, y);
    const length = Math.hypot(dx, dy);
    const parts = Math.max(2, Math.ceil(length / (POINT_GAP * diameter)));
    const shares = Array.from({ length: parts - 1 }, (_, k) => (k + 1) / parts);
    for (const share of shares) out.push(x + dx * share, y + dy * share);
  }
  return out;
}

/** Points of a ring without those that add little: x and y by turns. */
function thinned(points: readonly number[], gap: number): readonly number[] {
  const n = points.length;
  if (n <= 2 * FEW_POINTS) return points;
  const out = points.slice(0, 2);
  for (let i = 2; i < n; i += 2) {
    const j = (i + 2) % n;
    const far = Math.hypot(points[i]! - out.at(-2)!, points[i + 1]! - out.at(-1)!);
    const before = Math.atan2(points[i + 1]! - points[i - 1]!, points[i]! - points[i - 2]!);
    const after = Math.atan2(points[j + 1]! - points[i + 1]!, points[j]! - points[i]!);
    const bend = Math.abs(Math.atan2(Math.sin(after - before), Math.cos(after - before)));
    if (far >= gap || bend > BEND) out.push(points[i]!, points[i + 1]!);
  }
  return out;
}

/** Corners of the convex hull, counter-clockwise (Andrew's monotone chain). */
function convexHull(ring: Ring): number[] {
  const corners = Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i]!, ring[2 * i + 1]!] as const);
  corners.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain: (readonly [number, number])[] = [];
  const extend = (from: number, [x, y]: readonly [number, number]): void => {
    while (chain.length >= from + 2) {
      const [ax, ay] = chain[chain.length - 2]!;
      const [bx, by] = chain[chain.length - 1]!;
      if ((bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0) break;
      chain.pop();
    }
    chain.push([x, y]);
  };
  for (const corner of corners) extend(0, corner);
  const lower = chain.length - 1;
  for (const corner of corners.reverse()) extend(lower, corner);
  chain.pop();
  return chain.flat();
}

/** Large circles within a form that are spread over it: x, y, radius by turns. */
function circlesWithin(edges: Float64Array, [minX, minY, maxX, maxY]: readonly number[]): number[] {
  const spots: { x: number; y: number; r: number }[] = [];
  const [stepX, stepY] = [(maxX! - minX!) / CIRCLE_GRID, (maxY! - minY!) / CIRCLE_GRID];
  const frame = { x0: minX! + stepX / 2, y0: minY! + stepY / 2, stepX, stepY, columns: CIRCLE_GRID, rows: CIRCLE_GRID };
  const distances = new Float32Array(CIRCLE_GRID * CIRCLE_GRID);
  fillDistances(edges, frame, distances, 0);
  distances.forEach((r, k) => {
    if (!(r > 0)) return;
    spots.push({ x: frame.x0 + (k % CIRCLE_GRID) * stepX, y: frame.y0 + Math.floor(k / CIRCLE_GRID) * stepY, r });
  });
  spots.sort((a, b) => b.r - a.r);
  const chosen: typeof spots = [];
  for (const spot of spots) {
    if (chosen.length === MOST_CIRCLES || spot.r < LEAST_CIRCLE * spots[0]!.r) break;
    const isNew = chosen.every((c) => Math.hypot(c.x - spot.x, c.y - spot.y) >= CIRCLE_SPREAD * (c.r + spot.r));
    if (isNew) chosen.push(spot);
  }
  return chosen.flatMap(({ x, y, r }) => [x, y, r]);
}

function asBeads(points: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i < points.length; i += 2) out.push(points[i]!, points[i + 1]!, 0);
  return out;
}

/** Circles into the sharp tips of a ring, tip by tip, which two pieces may cross without an outline point of one in the other. */
function tipCircles(ring: Float64Array, all: Float64Array, diameter: number): number[][] {
  const out: number[][] = [];
  const count = ring.length / EDGE;
  for (let e = 0; e < count; e++) {
    const r = e * EDGE;
    const p = ((e + count - 1) % count) * EDGE;
    // unit vectors from the corner along both edges
    const [ax, ay] = [ring[r + 2]! * ring[r + 5]!, ring[r + 3]! * ring[r + 5]!];
    const [bx, by] = [-ring[p + 2]! * ring[p + 5]!, -ring[p + 3]! * ring[p + 5]!];
    if (ring[r + 6]! > 0 || ax * bx + ay * by < SHARP) continue;
    const along = Math.hypot(ax + bx, ay + by);
    const row: number[] = [];
    for (let t = FIRST_TIP; t <= LAST_TIP; t *= TIP_GROWTH) {
      const x = ring[r]! + ((ax + bx) / along) * t * diameter;
      const y = ring[r + 1]! + ((ay + by) / along) * t * diameter;
      const radius = signedDistance(all, x, y);
      if (radius <= 0) break;
      row.push(x, y, radius);
    }
    if (row.length > 0) out.push(row);
  }
  return out;
}
