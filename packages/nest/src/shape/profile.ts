import { isInRing, type Ring } from '@underlap/geometry/ring';

/** Width of the finest columns, mm. */
const FINEST_COLUMN_MM = 0.5;
/** Most columns of one profile before columns widen. */
const MOST_COLUMNS = 480;
/** What a profile may cover too much at the ends of a span when columns are merged, mm. */
const SPAN_TOLERANCE_MM = 0.3;

/**
 * A set of the plane cut into columns: for column i between edges[i] and edges[i + 1] the spans (lo, hi) of y that contain
 * everything the set has there, spans[from[i]] .. spans[from[i + 1]]. It never covers too little; it covers too much by at most
 * the span tolerance and the slope within one column.
 */
export interface Profile {
  readonly columns: number;
  readonly edges: Float64Array;
  readonly from: Int32Array;
  readonly spans: Float64Array;
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

/**
 * Columns of a polygon with holes grown by a distance (rounded corners).
 * @param rings - outer and holes; even-odd.
 * @param growth - mm, >= 0.
 * @param range - only this part of x, when given.
 * @remarks O(columns x edges per column x log).
 */
export function buildProfile(rings: readonly Ring[], growth: number, range?: { from: number; to: number }): Profile {
  let minX = Infinity;
  let maxX = -Infinity;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      if (ring[i]! < minX) minX = ring[i]!;
      if (ring[i]! > maxX) maxX = ring[i]!;
    }
  }
  minX = range ? range.from : minX - growth;
  maxX = range ? range.to : maxX + growth;
  const count = Math.max(1, Math.min(MOST_COLUMNS, Math.ceil((maxX - minX) / FINEST_COLUMN_MM)));
  const width = (maxX - minX) / count;
  const columns = columnSpans(rings, growth, minX, width, count);
  return mergeColumns(columns, minX, width, maxX);
}

/** Sorted disjoint spans of every column as lo, hi, lo, hi, ... */
function columnSpans(rings: readonly Ring[], growth: number, minX: number, width: number, count: number): number[][] {
  const touched: [number, number][][] = Array.from({ length: count }, () => []);
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) touchEdge(ring, i, growth, { minX, width, touched });
  }
  return touched.map((spans, column) => {
    spans.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
    const joined: number[] = [];
    const x = minX + (column + 0.5) * width;
    for (const [lo, hi] of spans) {
      const top = joined.length - 1;
      if (top > 0 && (lo <= joined[top]! || isCovered(rings, x, (joined[top]! + lo) / 2))) {
        if (hi > joined[top]!) joined[top] = hi;
      } else {
        joined.push(lo, hi);
      }
    }
    return joined;
  });
}

/** Add what the edge that begins at `i` covers, grown, to every column that it reaches. */
function touchEdge(
  ring: Ring,
  i: number,
  growth: number,
  { minX, width, touched }: { readonly minX: number; readonly width: number; readonly touched: [number, number][][] },
): void {
  const j = i + 2 === ring.length ? 0 : i + 2;
  const [px, py, qx, qy] = [ring[i]!, ring[i + 1]!, ring[j]!, ring[j + 1]!];
  const left = Math.min(px, qx) - growth;
  const right = Math.max(px, qx) + growth;
  // an edge that only touches a column's border leaves the column alone
  const first = Math.max(0, Math.floor((left - minX) / width + 1e-9));
  const last = Math.min(touched.length - 1, Math.ceil((right - minX) / width - 1e-9) - 1);
  const highX = py > qy ? px : qx;
  const lowX = py > qy ? qx : px;
  for (let column = first; column <= last; column++) {
    const a = Math.max(left, minX + column * width);
    const b = Math.max(a, Math.min(right, minX + (column + 1) * width));
    const top = capsuleTop(px, py, qx, qy, growth, Math.min(Math.max(highX, a), b));
    const bottom = -capsuleTop(px, -py, qx, -qy, growth, Math.min(Math.max(lowX, a), b));
    touched[column]!.push([bottom, top]);
  }
}

/**
 * Highest y at x of the points within `growth` of a segment. The set is convex, so over a column the highest point lies at
 * the x of the higher end, clamped to the column.
 */
function capsuleTop(px: number, py: number, qx: number, qy: number, growth: number, x: number): number {
  const dx = qx - px;
  const dy = qy - py;
  const length = Math.hypot(dx, dy);
  const cap = (cx: number, cy: number) => cy + Math.sqrt(Math.max(0, growth * growth - (x - cx) * (x - cx)));
  if (length === 0) return cap(px, py);
  if (Math.abs(dx) <= 1e-12 * length) {
    return py > qy ? cap(px, py) : cap(qx, qy);
  }
  // normal that points up
  const s = dx > 0 ? 1 : -1;
  const nx = (-dy / length) * s;
  const ny = (dx / length) * s;
  const t = (x - growth * nx - px) / dx;
  if (t <= 0) return cap(px, py);
  if (t >= 1) return cap(qx, qy);
  return py + dy * t + growth * ny;
}

/** By the even-odd rule over all rings. */
function isCovered(rings: readonly Ring[], x: number, y: number): boolean {
  return rings.reduce((inside, ring) => inside !== isInRing(ring, x, y), false);
}

function mergeColumns(columns: readonly number[][], minX: number, width: number, maxX: number): Profile {
  const edges: number[] = [minX];
  const from: number[] = [0];
  const spans: number[] = [];
  let group = columns[0]!.slice();
  let inner = group.slice();
  const close = (x: number) => {
    spans.push(...group);
    from.push(spans.length);
    edges.push(x);
  };
  for (let column = 1; column < columns.length; column++) {
    const next = columns[column]!;
    if (canJoin(group, inner, next)) {
      for (let k = 0; k < next.length; k += 2) {
        group[k] = Math.min(group[k]!, next[k]!);
        inner[k] = Math.max(inner[k]!, next[k]!);
        group[k + 1] = Math.max(group[k + 1]!, next[k + 1]!);
        inner[k + 1] = Math.min(inner[k + 1]!, next[k + 1]!);
      }
    } else {
      close(minX + column * width);
      group = next.slice();
      inner = next.slice();
    }
  }
  close(maxX);
  let minY = Infinity;
  let maxY = -Infinity;
  for (const y of spans) {
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return {
    columns: edges.length - 1,
    edges: Float64Array.from(edges),
    from: Int32Array.from(from),
    spans: Float64Array.from(spans),
    minX,
    maxX,
    minY,
    maxY,
  };
}

/** May a column join the group: same number of spans, and every end within the tolerance of all in the group? */
function canJoin(group: readonly number[], inner: readonly number[], next: readonly number[]): boolean {
  if (next.length !== group.length) return false;
  for (let k = 0; k < next.length; k += 2) {
    if (Math.max(inner[k]!, next[k]!) - Math.min(group[k]!, next[k]!) > SPAN_TOLERANCE_MM) return false;
    if (Math.max(group[k + 1]!, next[k + 1]!) - Math.min(inner[k + 1]!, next[k + 1]!) > SPAN_TOLERANCE_MM) return false;
    // joined spans must stay apart
    if (k > 0 && Math.min(group[k]!, next[k]!) <= Math.max(group[k - 1]!, next[k - 1]!)) return false;
  }
  return true;
}
