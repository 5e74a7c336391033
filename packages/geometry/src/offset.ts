import { regionRings, unionRegions } from './boolean.ts';
import { clip } from './clipper.ts';
import { GeometryError } from './error.ts';
import { arcSteps, FLATTEN_TOLERANCE_MM } from './flatten.ts';
import type { Region } from './region.ts';
import { assertFiniteRing, type Ring, reversedRing, ringBounds } from './ring.ts';

/** A corner is left pointed when the point reaches beyond the true round by less than this share of the arc tolerance. */
const POINTED_SHARE = 0.1;

/** Vertices nearer than this are one vertex, mm: their direction would be noise. */
const SAME_VERTEX_MM = 1e-7;

/**
 * Grow (positive) or shrink (negative) regions by a constant distance, with round corners.
 * @param regions - mm; not modified; they may overlap.
 * @param distance - mm, finite; 0 returns the union.
 * @param arcTolerance - largest gap between a rounded corner and its chords, mm, > 0.
 * @returns disjoint regions; an empty list when shrinking consumes everything (not an error).
 * @throws GeometryError `non-finite` with ring and vertex, `out-of-range`.
 * @remarks O(n log n) but for crossings of the raw outline. Each edge adds its swept strip and each outward corner its
 * sector, all wound the same way, so that the union by positive winding is the Minkowski sum exactly; inward corners between
 * edges long enough are trimmed at once, which keeps the raw outline nearly free of crossings. Areas of convex regions obey
 * Steiner's formula within arcTolerance * perimeter.
 */
export function offsetRegions(
  regions: readonly Region[],
  distance: number,
  arcTolerance: number = FLATTEN_TOLERANCE_MM,
): Region[] {
  assertParameters(distance, arcTolerance);
  if (distance === 0) return unionRegions(regions);
  if (distance > 0) {
    const raw = regionRings(regions).map((ring, index) => rawOffset(ring, distance, arcTolerance, `ring ${index}`));
    return clip('union', raw, [], 'positive');
  }
  return shrink(regions.length > 1 ? unionRegions(regions) : regions, -distance, arcTolerance);
}

/**
 * Everything within `distance` of an open line (x0, y0, x1, y1, ...), with round ends and corners.
 * @param distance - mm, > 0. A line of a single point gives a disc.
 * @throws GeometryError `non-finite`, `out-of-range`, `degenerate` for a line without points.
 */
export function bufferPolyline(
  polyline: Ring,
  distance: number,
  arcTolerance: number = FLATTEN_TOLERANCE_MM,
): Region[] {
  assertParameters(distance, arcTolerance);
  if (distance <= 0) throw new GeometryError('out-of-range', `a line is buffered by a positive distance: ${distance}`);
  const n = polyline.length / 2;
  if (n < 1) throw new GeometryError('degenerate', 'a line without points cannot be buffered');
  // There and back again is a closed outline without area; its offset is the buffer.
  const loop = new Float64Array(Math.max(2, 4 * n - 4));
  loop.set(polyline);
  for (let i = n; i < 2 * n - 2; i++) {
    loop[2 * i] = polyline[2 * (2 * n - 2 - i)]!;
    loop[2 * i + 1] = polyline[2 * (2 * n - 2 - i) + 1]!;
  }
  return clip('union', [rawOffset(loop, distance, arcTolerance, 'line')], [], 'positive');
}

/** What is farther than `distance` from the complement: the complement is grown inside a frame and taken away again. */
function shrink(regions: readonly Region[], distance: number, arcTolerance: number): Region[] {
  const rings = regionRings(regions);
  if (rings.length === 0) return [];
  const raw = rings.map((ring, index) => rawOffset(reversedRing(ring), distance, arcTolerance, `ring ${index}`));
  const frame = frameAround(rings, distance + 1);
  return clip('difference', [frame], regionRings(clip('union', [frame, ...raw], [], 'positive')), 'positive');
}

function frameAround(rings: readonly Ring[], margin: number): Ring {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const ring of rings) {
    const box = ringBounds(ring);
    minX = Math.min(minX, box.minX - margin);
    minY = Math.min(minY, box.minY - margin);
    maxX = Math.max(maxX, box.maxX + margin);
    maxY = Math.max(maxY, box.maxY + margin);
  }
  return Float64Array.of(minX, minY, maxX, minY, maxX, maxY, minX, maxY);
}

/**
 * The outline swept by a ring's edges moved to their outer side (right of the direction of travel): may cross itself, and
 * winds positively round everything within the distance.
 */
function rawOffset(source: Ring, distance: number, arcTolerance: number, name: string): Ring {
  assertFiniteRing(source, name);
  const ring = withoutDoubles(source);
  const n = ring.length / 2;
  const out: number[] = [];
  if (n === 1) {
    arc(out, ring[0]!, ring[1]!, distance, 0, 2 * Math.PI, arcTolerance);
    return Float64Array.from(out);
  }
  const edges = edgesOf(ring);
  for (let i = 0; i < n; i++) {
    const before = (i + n - 1) % n;
    const { ux, uy } = edges;
    const cross = ux[before]! * uy[i]! - uy[before]! * ux[i]!;
    const dot = ux[before]! * ux[i]! + uy[before]! * uy[i]!;
    const turn = Math.atan2(cross, dot);
    const x = ring[2 * i]!;
    const y = ring[2 * i + 1]!;
    // tan(turn / 2): how far along the edges the offset lines meet, per unit of distance.
    const reach = distance * Math.tan(turn / 2);
    const isSlight = Math.abs(turn) < Math.PI / 2;
    const canMeet =
      turn >= 0
        ? isSlight && distance * (1 / Math.cos(turn / 2) - 1) <= POINTED_SHARE * arcTolerance
        : isSlight && -reach <= roomAt(edges, before) && -reach <= roomAt(edges, i);
    if (canMeet) {
      // The bisector: normal of the edge before, moved along that edge by the reach.
      out.push(x + distance * uy[before]! + reach * ux[before]!, y - distance * ux[before]! + reach * uy[before]!);
    } else if (turn > 0 || (dot < 0 && cross === 0)) {
      const start = Math.atan2(-ux[before]!, uy[before]!);
      arc(out, x, y, distance, start, Math.abs(turn), arcTolerance);
    } else {
      out.push(
        x + distance * uy[before]!,
        y - distance * ux[before]!,
        x,
        y,
        x + distance * uy[i]!,
        y - distance * ux[i]!,
      );
    }
  }
  return Float64Array.from(out);
}

interface Edges {
  readonly ux: Float64Array;
  readonly uy: Float64Array;
  readonly length: Float64Array;
}

/** Half an edge may be trimmed from either end, so that a strip never turns inside out. */
function roomAt(edges: Edges, edge: number): number {
  return edges.length[edge]! / 2;
}

function edgesOf(ring: Ring): Edges {
  const n = ring.length / 2;
  const edges = { ux: new Float64Array(n), uy: new Float64Array(n), length: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const dx = ring[2 * j]! - ring[2 * i]!;
    const dy = ring[2 * j + 1]! - ring[2 * i + 1]!;
    const length = Math.hypot(dx, dy);
    edges.length[i] = length;
    edges.ux[i] = dx / length;
    edges.uy[i] = dy / length;
  }
  return edges;
}

function withoutDoubles(ring: Ring): Ring {
  const out: number[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    const last = out.length;
    if (last === 0 || Math.hypot(x - out[last - 2]!, y - out[last - 1]!) > SAME_VERTEX_MM) out.push(x, y);
  }
  while (out.length > 2 && Math.hypot(out[0]! - out.at(-2)!, out[1]! - out.at(-1)!) <= SAME_VERTEX_MM) out.length -= 2;
  return Float64Array.from(out);
}

function arc(
  out: number[],
  x: number,
  y: number,
  radius: number,
  start: number,
  sweep: number,
  arcTolerance: number,
): void {
  const steps = arcSteps(radius, sweep, arcTolerance);
  for (let i = 0; i <= steps; i++) {
    const angle = start + (sweep * i) / steps;
    out.push(x + radius * Math.cos(angle), y + radius * Math.sin(angle));
  }
}

function assertParameters(distance: number, arcTolerance: number): void {
  if (!Number.isFinite(distance)) throw new GeometryError('non-finite', `an offset distance is ${distance}`);
  if (!(arcTolerance > 0))
    throw new GeometryError('out-of-range', `an arc tolerance must be positive: ${arcTolerance}`);
}
