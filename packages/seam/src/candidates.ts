import { convexHull } from '@underlap/geometry/hull';
import type { Ring } from '@underlap/geometry/ring';
import { depthIn, type Halves, halfPlane, type KnobRoom, LEAST_INSET_MM, shrunkSet, turnedBox } from './halves.ts';

/** Turns of strips and of bed rectangles that are tried, degrees. */
const STRIP_STEP_DEG = 5;
const BOX_STEP_DEG = 10;

/** Bands wider than this are also tried in parts, mm: else the cheapest way nibbles a corner. */
const WIDE_BAND_MM = 100;

/** Seams of a strip plan stray this far from their even place, mm. */
const EVEN_BAND_MM = 45;

/** ... and are given this much either way where there is so much, so that the grid has points to offer. */
const LEAST_BAND_MM = 6;

/** Cross rows are counted at this share of their height: the exact fit test on real sides decides. */
const OPTIMISM = 0.85;

/** Sides of the rectangle that every piece must fit, net of kerf, mm. */
export interface Box {
  readonly long: number;
  readonly short: number;
}

/** The ring with points every few mm: strips are counted by the points in them. */
export function densePoints(ring: Ring, step = 5): Ring {
  const out: number[] = [];
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    const dx = ring[j]! - ring[i]!;
    const dy = ring[j + 1]! - ring[i + 1]!;
    const parts = Math.max(1, Math.ceil(Math.hypot(dx, dy) / step));
    for (let k = 0; k < parts; k++) out.push(ring[i]! + (dx * k) / parts, ring[i + 1]! + (dy * k) / parts);
  }
  return Float64Array.from(out);
}

/**
 * Pieces a set of points is expected to need, by strips and cross rows.
 * @param share - 1 counts full extents, less is optimistic.
 * @remarks O(turns x points). An estimate both ways: never a bound.
 */
export function expectedPieces(points: Ring, box: Box, room: KnobRoom, share = OPTIMISM): number {
  let least = Infinity;
  for (let deg = 0; deg < 180; deg += 2 * BOX_STEP_DEG - 5) {
    for (const [width, height] of sidesOf(box)) {
      least = Math.min(least, stripPieces(points, (deg * Math.PI) / 180, width, height, room, share));
    }
  }
  return least;
}

/** Strips of at most `width` at one turn, each cut into rows of at most `height`. */
function stripPieces(
  points: Ring,
  angle: number,
  width: number,
  height: number,
  room: KnobRoom,
  share: number,
): number {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  let x0 = Infinity;
  let x1 = -Infinity;
  for (let i = 0; i < points.length; i += 2) {
    const x = points[i]! * cos + points[i + 1]! * sin;
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
  }
  const count = stripsFor(x1 - x0, width, room);
  if (!Number.isFinite(count)) return Infinity;
  const low = new Float64Array(count).fill(Infinity);
  const high = new Float64Array(count).fill(-Infinity);
  for (let i = 0; i < points.length; i += 2) {
    const x = points[i]! * cos + points[i + 1]! * sin;
    const y = points[i + 1]! * cos - points[i]! * sin;
    const k = Math.min(count - 1, Math.floor(((x - x0) / (x1 - x0 + 1e-9)) * count));
    if (y < low[k]!) low[k] = y;
    if (y > high[k]!) high[k] = y;
  }
  let pieces = 0;
  for (let k = 0; k < count; k++) {
    const extent = Math.max(0, high[k]! - low[k]!) * (count > 1 ? share : 1);
    pieces += stripsFor(extent, height, room);
  }
  return pieces;
}

/** Number of strips of at most `width` over `extent` with room for knobs beside every seam. */
export function stripsFor(extent: number, width: number, { rho, oneSided }: KnobRoom): number {
  if (extent <= width + 1e-6) return 1;
  if (oneSided) return width <= rho ? Infinity : Math.max(2, Math.ceil((extent - rho) / (width - rho) - 1e-9));
  if (width <= 2 * rho) return Infinity;
  return Math.max(2, Math.ceil((extent - 2 * rho) / (width - 2 * rho) - 1e-9));
}

/**
 * Where a face may be cut: strips at every turn and pairs of bed rectangles, best estimates first.
 * @param points - samples of the face's outline.
 * @param slack - candidates that expect up to this many pieces more than the best are kept.
 * @param most - at most this many, spread over the turns.
 */
export function candidateHalves(points: Ring, box: Box, room: KnobRoom, slack: number, most: number): Halves[] {
  const all = [...stripHalves(points, box, room), ...boxHalves(points, box, room)];
  if (all.length === 0) return [];
  const least = Math.min(...all.map((halves) => halves.pieces));
  const kept = all.filter((halves) => halves.pieces <= least + slack);
  const byPieces = new Map<number, Halves[]>();
  for (const halves of kept) {
    const list = byPieces.get(halves.pieces) ?? [];
    list.push(halves);
    byPieces.set(halves.pieces, list);
  }
  const out: Halves[] = [];
  for (const pieces of [...byPieces.keys()].sort((a, b) => a - b)) {
    const list = byPieces.get(pieces)!;
    const room = Math.max(Math.ceil(most / 3), most - out.length);
    // Evenly spaced picks keep all turns in the running when there are too many.
    if (list.length <= room) out.push(...list);
    else for (let k = 0; k < room; k++) out.push(list[Math.floor((k * list.length) / room)]!);
  }
  return out;
}

/** A plan of straight strips, each cut into rows, at one turn. */
export interface StripPlan {
  readonly angle: number;
  readonly width: number;
  readonly height: number;
  readonly pieces: number;
  readonly room: KnobRoom;
}

/** Strip plans by the pieces they take, fewest first: square to the drawing, and every 15 degrees. O(turns x points). */
export function stripPlans(points: Ring, box: Box, room: KnobRoom): StripPlan[] {
  const out: StripPlan[] = [];
  for (let deg = 0; deg < 180; deg += 15) {
    const angle = (deg * Math.PI) / 180;
    for (const [width, height] of sidesOf(box)) {
      const pieces = stripPieces(points, angle, width, height, room, 1);
      if (Number.isFinite(pieces)) out.push({ angle, width, height, pieces, room });
    }
  }
  return out.sort((a, b) => a.pieces - b.pieces);
}

/**
 * Bands for the middle one of the cuts that a plan of strips makes, the even place first; empty when the face is one strip already.
 * With knobs on one side there are two such bands, one for either side.
 */
export function middleStrips(points: Ring, angle: number, width: number, room: KnobRoom): Halves[] {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const [x0, x1] = extent(points, cos, sin);
  const n = stripsFor(x1 - x0, width, room);
  if (n < 2 || !Number.isFinite(n)) return [];
  const a = Math.floor(n / 2);
  const inset = room.oneSided ? LEAST_INSET_MM : room.rho;
  const out: Halves[] = [];
  for (const side of room.oneSided ? (['low', 'high'] as const) : (['low'] as const)) {
    const [from, to] = bandOf(x0, x1, width, room, n, a, side);
    const middle = (from + to) / 2;
    const spare = (to - from) / 2 - inset;
    if (spare < 0) continue;
    // Each cut takes half of the room there is: the rest is for the cuts still to come. With two strips there are none.
    const share = n === 2 ? 1 : 0.5;
    const half = inset + Math.min(EVEN_BAND_MM, Math.max(share * spare, Math.min(spare, LEAST_BAND_MM)));
    out.push({ a: halfPlane(cos, sin, middle + half), b: halfPlane(-cos, -sin, half - middle), pieces: n, inset });
  }
  return out;
}

/**
 * Where cut a of n strips may run, the room beside it included.
 * @param side - with knobs on one side: do they stand in the strip on the low or the high side of every seam?
 */
function bandOf(
  x0: number,
  x1: number,
  width: number,
  { rho, oneSided }: KnobRoom,
  n: number,
  a: number,
  side: 'low' | 'high',
): [number, number] {
  if (!oneSided) return [x1 - (n - a) * width + 2 * rho * (n - a - 1), x0 + a * width - 2 * rho * (a - 1)];
  // Each strip but the first grows beyond its own seam by rho; mirrored for the other side.
  const low = side === 'low' ? x1 - (n - a) * (width - rho) : x1 - (n - a) * width + (n - a - 1) * rho;
  const high = side === 'low' ? x0 + a * width - (a - 1) * rho : x0 + a * (width - rho);
  return [low - LEAST_INSET_MM, high + LEAST_INSET_MM];
}

/**
 * Where a face that fits already may be cut in two, for plans with more pieces than needed.
 * @param share - of the face's extent that the smaller side takes, 0..0.5; tried from either end.
 */
export function sharingHalves(points: Ring, share: number): Halves[] {
  const out: Halves[] = [];
  for (let deg = 0; deg < 180; deg += 15) {
    const angle = (deg * Math.PI) / 180;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const [x0, x1] = extent(points, cos, sin);
    for (const middle of share < 0.45 ? [share, 1 - share] : [0.5]) {
      const low = x0 + Math.max(0.08, middle - 0.2) * (x1 - x0);
      const high = x0 + Math.min(0.92, middle + 0.2) * (x1 - x0);
      out.push({ a: halfPlane(cos, sin, high), b: halfPlane(-cos, -sin, -low), pieces: 2, inset: LEAST_INSET_MM });
    }
  }
  return out;
}

function stripHalves(points: Ring, box: Box, room: KnobRoom): Halves[] {
  const out: Halves[] = [];
  const inset = room.oneSided ? LEAST_INSET_MM : room.rho;
  for (let deg = 0; deg < 180; deg += STRIP_STEP_DEG) {
    const angle = (deg * Math.PI) / 180;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const [x0, x1] = extent(points, cos, sin);
    const done = new Set<string>();
    for (const [width, height] of sidesOf(box)) {
      const count = stripsFor(x1 - x0, width, room);
      if (!Number.isFinite(count)) continue;
      for (const n of count === 1 ? [2] : [count, count + 1]) {
        const stripWidth = Math.min(width, (x1 - x0) / (n - 0.999));
        const pieces = stripPieces(points, angle, stripWidth, height, room, OPTIMISM);
        for (const a of cutsOf(n)) {
          for (const side of room.oneSided ? (['low', 'high'] as const) : (['low'] as const)) {
            const [from, to] = Number.isFinite(width)
              ? bandOf(x0, x1, width, room, n, a, side)
              : [x0 + 0.2 * (x1 - x0), x1 - 0.2 * (x1 - x0)];
            // A seam near the face's own end parts off a sliver: keep away from it.
            const spare = Math.min(0.12 * (x1 - x0), 40);
            const low = Math.max(from, x0 + spare);
            const high = Math.min(to, x1 - spare);
            if (high - low < 2 * inset) continue;
            for (const [share0, share1] of bandsOf(high - low)) {
              const b0 = low + share0 * (high - low);
              const b1 = low + share1 * (high - low);
              const key = `${n} ${a} ${b0.toFixed(1)} ${b1.toFixed(1)}`;
              if (done.has(key)) continue;
              done.add(key);
              out.push({ a: halfPlane(cos, sin, b1), b: halfPlane(-cos, -sin, -b0), pieces, inset });
            }
          }
        }
      }
    }
  }
  return out;
}

function bandsOf(width: number): readonly (readonly [number, number])[] {
  return width > WIDE_BAND_MM
    ? [
        [0, 1],
        [0, 0.4],
        [0.3, 0.7],
        [0.6, 1],
      ]
    : [[0, 1]];
}

/** Which cut of n strips is made first: all for few strips, else the middle one, which keeps the tree shallow. */
function cutsOf(n: number): number[] {
  if (n <= 4) return Array.from({ length: n - 1 }, (_, index) => index + 1);
  return [Math.floor(n / 2)];
}

/** Two bed rectangles at turns of their own, each pushed into a corner of the face's extent, that together hold the face. */
function boxHalves(points: Ring, box: Box, room: KnobRoom): Halves[] {
  if (!Number.isFinite(box.long)) return [];
  const hull = convexHull(points);
  const boxes: { set: Float64Array; first: number; second: number }[] = [];
  const outside: Uint8Array[] = [];
  const n = hull.length / 2;
  for (let deg = 0; deg < 180; deg += BOX_STEP_DEG) {
    const angle = (deg * Math.PI) / 180;
    const [x0, x1] = extent(hull, Math.cos(angle), Math.sin(angle));
    const [y0, y1] = extent(hull, -Math.sin(angle), Math.cos(angle));
    const width = box.long;
    const height = box.short;
    const xs = x1 - x0 <= width ? [x0] : [x0, x1 - width];
    const ys = y1 - y0 <= height ? [y0] : [y0, y1 - height];
    for (const x of xs) {
      for (const y of ys) {
        const set = turnedBox(angle, x, x + width, y, y + height);
        const flags = new Uint8Array(n);
        for (let i = 0; i < n; i++) flags[i] = depthIn(set, hull[2 * i]!, hull[2 * i + 1]!) < 0 ? 1 : 0;
        boxes.push({ set, first: x, second: y });
        outside.push(flags);
      }
    }
  }
  const found: { a: Float64Array; b: Float64Array; overlap: number }[] = [];
  const inset = room.oneSided ? LEAST_INSET_MM : room.rho;
  for (let i = 0; i < boxes.length; i++) {
    for (let j = i + 1; j < boxes.length; j++) {
      const a = outside[i]!;
      const b = outside[j]!;
      let holds = true;
      let onlyA = 0;
      let onlyB = 0;
      for (let k = 0; k < n && holds; k++) {
        if (a[k] && b[k]) holds = false;
        else if (a[k]) onlyB++;
        else if (b[k]) onlyA++;
      }
      if (!holds || onlyA === 0 || onlyB === 0) continue;
      const overlap = overlapRoom(points, boxes[i]!.set, boxes[j]!.set, inset);
      if (overlap > 0) found.push({ a: boxes[i]!.set, b: boxes[j]!.set, overlap });
    }
  }
  const best = found.sort((a, b) => b.overlap - a.overlap);
  if (!room.oneSided) return best.slice(0, 40).map(({ a, b }) => ({ a, b, pieces: 2, inset }));
  const by = room.rho - LEAST_INSET_MM;
  return best.slice(0, 20).flatMap(({ a, b }) => [
    { a: shrunkSet(a, by), b, pieces: 2, inset },
    { a, b: shrunkSet(b, by), pieces: 2, inset },
  ]);
}

/** Share of the outline samples that lie in both sets with room for knobs. */
function overlapRoom(points: Ring, a: Float64Array, b: Float64Array, rho: number): number {
  let count = 0;
  for (let i = 0; i < points.length; i += 6) {
    const x = points[i]!;
    const y = points[i + 1]!;
    if (depthIn(a, x, y) >= rho && depthIn(b, x, y) >= rho) count++;
  }
  return count;
}

function sidesOf(box: Box): readonly (readonly [number, number])[] {
  return box.long === box.short
    ? [[box.long, box.short]]
    : [
        [box.long, box.short],
        [box.short, box.long],
      ];
}

function extent(points: Ring, cos: number, sin: number): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < points.length; i += 2) {
    const x = points[i]! * cos + points[i + 1]! * sin;
    if (x < low) low = x;
    if (x > high) high = x;
  }
  return [low, high];
}
