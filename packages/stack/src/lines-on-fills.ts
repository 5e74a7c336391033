import type { Complaint, DrawnShape } from '@underlap/artwork/drawing';
import { distancePointToRing } from '@underlap/geometry/distance';
import type { Ring } from '@underlap/geometry/ring';
import { complain } from './draft.ts';
import { type Outline, outlinesOf } from './outline.ts';

/** A line drawn over a fill follows its edge this closely, mm. */
const ON_EDGE_MM = 0.15;

/** Shapes in which every outline stands once, and what was decided, told. */
export interface SingleOutlines {
  readonly shapes: readonly DrawnShape[];
  readonly complaints: readonly Complaint[];
}

/**
 * A part drawn as a fill with a cut line over its edge is one part. The fill stays, since it carries the paint and the place in
 * the stack; the line goes.
 * @param shapes - those that are cut, bottom first. @remarks O(lines x fills) box tests.
 */
export function mergeLinesOverFills(shapes: readonly DrawnShape[]): SingleOutlines {
  const fills = shapes.filter((shape) => shape.fill !== null).flatMap(outlinesOf);
  if (fills.length === 0) return { shapes, complaints: [] };
  const merged: { line: DrawnShape; fill: DrawnShape }[] = [];
  const kept = shapes.flatMap((shape): DrawnShape[] => {
    if (shape.fill !== null) return [shape];
    const outlines = outlinesOf(shape);
    const doubled = outlines.flatMap((outline) => {
      const fill = fills.find((candidate) => runAlong(outline, candidate));
      return fill === undefined ? [] : [{ outline, fill: fill.shape }];
    });
    const [first] = doubled;
    if (first === undefined) return [shape];
    merged.push({ line: shape, fill: first.fill });
    const along = new Set(doubled.map(({ outline }) => outline.place));
    const contours = shape.contours.filter((_, index) => !along.has(index));
    return contours.length === 0 ? [] : [{ ...shape, contours }];
  });
  const [first] = merged;
  if (first === undefined) return { shapes, complaints: [] };
  const lines = merged.length === 1 ? 'a cut line runs' : `${merged.length} cut lines run`;
  const message = `${lines} along the edge of filled shapes (${first.line.place.element} on ${first.fill.place.element}${merged.length > 1 ? ', and so on' : ''}): each pair is read as one part`;
  return { shapes: kept, complaints: [complain('line-on-fill', 'note', message, first.line.place)] };
}

function runAlong(line: Outline, fill: Outline): boolean {
  const a = line.bounds;
  const b = fill.bounds;
  const apart = Math.max(
    Math.abs(a.minX - b.minX),
    Math.abs(a.minY - b.minY),
    Math.abs(a.maxX - b.maxX),
    Math.abs(a.maxY - b.maxY),
  );
  return apart <= ON_EDGE_MM && isNear(line.ring, fill.ring) && isNear(fill.ring, line.ring);
}

/** Do all vertices of a ring, at most 128 of them, lie on the other? */
function isNear(ring: Ring, other: Ring): boolean {
  const step = 2 * Math.max(1, Math.floor(ring.length / 256));
  for (let i = 0; i < ring.length; i += step)
    if (distancePointToRing(ring[i]!, ring[i + 1]!, other) > ON_EDGE_MM) return false;
  return true;
}
