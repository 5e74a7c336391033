import type { Drawing } from '@underlap/artwork/drawing';
import { flattenContour } from '@underlap/geometry/flatten';
import DxfParser from 'dxf-parser';

/**
 * What dxf-parser 1.1 finds in a DXF, as polylines in the frame of a `Drawing`, against what was read. It parses; places of
 * blocks, bulges and splines are worked out here from the DXF reference, with none of Underlap's code.
 */

type Spot = readonly [number, number];
type Place = (spot: Spot) => Spot;

interface Point {
  readonly x: number;
  readonly y: number;
}

/** The fields of dxf-parser's entities that are looked at. */
interface Entity {
  readonly type: string;
  readonly inPaperSpace?: boolean;
  readonly vertices?: readonly (Point & { readonly bulge?: number })[];
  readonly points?: readonly Point[];
  readonly shape?: boolean;
  readonly center?: Point;
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
  readonly majorAxisEndPoint?: Point;
  readonly axisRatio?: number;
  readonly controlPoints?: readonly Point[];
  readonly knotValues?: readonly number[];
  readonly degreeOfSplineCurve?: number;
  readonly name?: string;
  readonly position?: Point;
  readonly xScale?: number;
  readonly yScale?: number;
  readonly rotation?: number;
  readonly columnCount?: number;
  readonly rowCount?: number;
  readonly columnSpacing?: number;
  readonly rowSpacing?: number;
}

interface Block {
  readonly position?: Point;
  readonly entities?: readonly Entity[];
}

/** Chords a whole turn, and a span of a spline. */
const CHORDS = 180;
/** Blocks in blocks that are followed. */
const DEEPEST = 8;

/** mm of the units that a header may name. Source: DXF reference, $INSUNITS. */
const MM: Readonly<Record<number, number>> = { 1: 25.4, 2: 304.8, 4: 1, 5: 10, 6: 1000 };

/** Curves may differ by this share of the drawing's larger side, and so may the total length. */
const PLACE_SHARE = 2e-3;
const LENGTH_SHARE = 5e-3;

/** Is everything that the outside parser finds where it was read, and nothing else? Null where it gives up or finds what it does not know. */
export function isSameDxf(text: string, drawing: Drawing): boolean | null {
  let theirs: Spot[][];
  let unit: number | undefined;
  try {
    const parsed = new DxfParser().parseSync(text);
    if (parsed === null) return null;
    unit = MM[Number(parsed.header?.$INSUNITS ?? 0)];
    const blocks = (parsed.blocks ?? {}) as unknown as Readonly<Record<string, Block>>;
    const entities = parsed.entities as unknown as readonly Entity[];
    theirs = entities
      .filter(({ inPaperSpace }) => inPaperSpace !== true)
      .flatMap((entity) => linesOf(entity, blocks, 0));
  } catch {
    // It throws errors of many kinds at what it does not know.
    return null;
  }
  const drawn = theirs.filter((line) => lengthOf(line) > 0);
  if (drawn.length === 0) return null;
  const xs = drawn.flat().map(([x]) => x);
  const ys = drawn.flat().map(([, y]) => y);
  const [left, top] = [least(xs), -least(ys.map((y) => -y))];
  const scale = drawing.size.kind === 'known' ? (unit ?? 1) : 1;
  const placed = drawn.map((line) => line.map(([x, y]): Spot => [(x - left) * scale, (top - y) * scale]));
  const ours = drawing.shapes.flatMap(({ contours }) =>
    [...contours].map((contour): Spot[] => {
      const flat = flattenContour(contour, 0.01);
      const line = Array.from({ length: flat.length / 2 }, (_, i): Spot => [flat[2 * i]!, flat[2 * i + 1]!]);
      return contour.closed ? [...line, line[0]!] : line;
    }),
  );
  const side = scale * Math.max(-least(xs.map((x) => -x)) - left, top - least(ys));
  const sum = (lines: readonly Spot[][]): number => lines.reduce((total, line) => total + lengthOf(line), 0);
  if (Math.abs(sum(ours) - sum(placed)) > LENGTH_SHARE * sum(placed)) return false;
  const within = PLACE_SHARE * side;
  return liesOn(placed, ours, within) && liesOn(ours, placed, within);
}

function linesOf(entity: Entity, blocks: Readonly<Record<string, Block>>, depth: number): Spot[][] {
  const { type, vertices = [], center = { x: 0, y: 0 }, radius = 0 } = entity;
  if (type === 'LINE') return [vertices.map(({ x, y }): Spot => [x, y])];
  if (type === 'LWPOLYLINE' || type === 'POLYLINE') return [bulged(entity)];
  if (type === 'CIRCLE') return [arc(center, [radius, 0], 1, 0, 2 * Math.PI)];
  if (type === 'ARC')
    return [arc(center, [radius, 0], 1, entity.startAngle!, turnTo(entity.startAngle!, entity.endAngle!))];
  if (type === 'ELLIPSE') {
    const { x, y } = entity.majorAxisEndPoint!;
    const from = entity.startAngle ?? 0;
    return [arc(center, [x, y], entity.axisRatio!, from, turnTo(from, entity.endAngle ?? 2 * Math.PI))];
  }
  if (type === 'SPLINE') return [splineLine(entity)];
  if (type === 'INSERT') return inserted(entity, blocks, depth);
  return [];
}

function turnTo(from: number, to: number): number {
  const sweep = (((to - from) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return sweep < 1e-9 ? 2 * Math.PI : sweep;
}

function arc({ x, y }: Point, [ax, ay]: Spot, ratio: number, from: number, sweep: number): Spot[] {
  const steps = Math.max(8, Math.ceil((CHORDS * sweep) / (2 * Math.PI)));
  return Array.from({ length: steps + 1 }, (_, i): Spot => {
    const turn = from + (sweep * i) / steps;
    const [c, s] = [Math.cos(turn), ratio * Math.sin(turn)];
    return [x + ax * c - ay * s, y + ay * c + ax * s];
  });
}

/** Bulge = tan(sweep / 4), positive to the left of the chord. */
function bulged({ vertices = [], shape }: Entity): Spot[] {
  const out: Spot[] = [];
  const count = shape === true ? vertices.length : vertices.length - 1;
  vertices.slice(0, Math.max(count, 0)).forEach((p, i) => {
    const q = vertices[(i + 1) % vertices.length]!;
    const sweep = 4 * Math.atan(p.bulge ?? 0);
    out.push([p.x, p.y]);
    if (sweep === 0) return;
    const half = Math.tan(sweep / 2) || 1e-12;
    const [mx, my] = [(p.x + q.x) / 2, (p.y + q.y) / 2];
    const [cx, cy] = [mx - (q.y - p.y) / (2 * half), my + (q.x - p.x) / (2 * half)];
    const steps = Math.max(8, Math.ceil((CHORDS * Math.abs(sweep)) / (2 * Math.PI)));
    for (let k = 1; k < steps; k++) {
      const turn = (sweep * k) / steps;
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      out.push([cx + (p.x - cx) * c - (p.y - cy) * s, cy + (p.x - cx) * s + (p.y - cy) * c]);
    }
  });
  const last = shape === true ? vertices[0] : vertices.at(-1);
  if (last !== undefined) out.push([last.x, last.y]);
  return out;
}

/** De Boor's recursion; weights are not parsed, so rational splines are left to the caller's tolerance. */
function splineLine({ controlPoints = [], knotValues = [], degreeOfSplineCurve: degree = 3 }: Entity): Spot[] {
  if (controlPoints.length <= degree) return [];
  const [from, to] = [knotValues[degree]!, knotValues[controlPoints.length]!];
  const steps = CHORDS + 8 * controlPoints.length;
  return Array.from({ length: steps + 1 }, (_, i): Spot => {
    const u = Math.min(from + ((to - from) * i) / steps, to - 1e-12 * (to - from));
    let span = degree;
    while (span < controlPoints.length - 1 && knotValues[span + 1]! <= u) span++;
    const points = Array.from({ length: degree + 1 }, (_, j) => ({ ...controlPoints[span - degree + j]! }));
    for (let r = 1; r <= degree; r++) {
      for (let j = degree; j >= r; j--) {
        const low = knotValues[span - degree + j]!;
        const width = knotValues[span + 1 + j - r]! - low;
        const v = width === 0 ? 0 : (u - low) / width;
        const [a, b] = [points[j - 1]!, points[j]!];
        points[j] = { ...b, x: a.x + v * (b.x - a.x), y: a.y + v * (b.y - a.y) };
      }
    }
    return [points[degree]!.x, points[degree]!.y];
  });
}

function inserted(entity: Entity, blocks: Readonly<Record<string, Block>>, depth: number): Spot[][] {
  const block = blocks[entity.name ?? ''];
  if (block === undefined || depth >= DEEPEST) return [];
  const base = block.position ?? { x: 0, y: 0 };
  const at = entity.position ?? { x: 0, y: 0 };
  const { xScale = 1, yScale = 1, rotation = 0, columnCount = 1, rowCount = 1 } = entity;
  const [c, s] = [Math.cos((rotation * Math.PI) / 180), Math.sin((rotation * Math.PI) / 180)];
  const inner = (block.entities ?? []).flatMap((child) => linesOf(child, blocks, depth + 1));
  const places = Array.from({ length: columnCount * rowCount }, (_, i): Place => {
    const [dx, dy] = [
      (i % columnCount) * (entity.columnSpacing ?? 0),
      Math.floor(i / columnCount) * (entity.rowSpacing ?? 0),
    ];
    return ([x, y]) => {
      const [u, v] = [(x - base.x) * xScale + dx, (y - base.y) * yScale + dy];
      return [at.x + c * u - s * v, at.y + s * u + c * v];
    };
  });
  return places.flatMap((place) => inner.map((line) => line.map(place)));
}

function lengthOf(line: readonly Spot[]): number {
  return line.reduce((total, [x, y], i) => {
    const before = line[i - 1];
    return before === undefined ? total : total + Math.hypot(x - before[0], y - before[1]);
  }, 0);
}

function least(values: readonly number[]): number {
  return values.reduce((low, value) => Math.min(low, value), Infinity);
}

/** Vertices looked at along a line. */
const LOOKS = 24;

/** Do vertices all along the first lines lie on lines of the others? */
function liesOn(first: readonly Spot[][], second: readonly Spot[][], within: number): boolean {
  const boxed = second.map((line) => ({ line, ...boxOf(line) }));
  return first.every((line) => {
    const step = Math.max(1, Math.floor(line.length / LOOKS));
    return line.every(([x, y], i) => {
      if (i % step !== 0) return true;
      const near = boxed.filter(
        ({ west, east, north, south }) =>
          x >= west - within && x <= east + within && y >= north - within && y <= south + within,
      );
      return near.some((other) => isNear([x, y], other.line, within));
    });
  });
}

function boxOf(line: readonly Spot[]): { west: number; east: number; north: number; south: number } {
  const xs = line.map(([x]) => x);
  const ys = line.map(([, y]) => y);
  return { west: least(xs), east: -least(xs.map((x) => -x)), north: least(ys), south: -least(ys.map((y) => -y)) };
}

function isNear([x, y]: Spot, line: readonly Spot[], within: number): boolean {
  return line.some(([bx, by], i) => {
    const before = line[i - 1];
    if (before === undefined) return false;
    const [ex, ey] = [bx - before[0], by - before[1]];
    const size = ex * ex + ey * ey;
    const u = size === 0 ? 0 : Math.max(0, Math.min(1, ((x - before[0]) * ex + (y - before[1]) * ey) / size));
    return Math.hypot(x - before[0] - u * ex, y - before[1] - u * ey) <= within;
  });
}
