import type { Primitive } from './carrier.ts';
import type { ArcSegment, LineSegment } from './curve.ts';
import type { ArcContour } from './curve-to-arcs.ts';
import type { Point } from './point.ts';
import { segmentTangent } from './segment.ts';

/** A turn below this is no corner, radians: tangents of computed arcs agree to about 1e-12. */
const LEAST_CORNER = 1e-9;

/**
 * The exact lines and arcs that the offset of a contour is made of, in order, before any trimming: lines shifted, arcs with changed
 * radius, an arc round every outward corner. Arcs whose radius is used up are left out.
 * @param contour - closed, oriented by convention (material on the left of travel, positive turn being left).
 * @param distance - mm; positive moves away from the material.
 */
export function offsetPrimitives(contour: ArcContour, distance: number): Primitive[] {
  const out: Primitive[] = [];
  const parts: Primitive[] = [];
  let from = contour.start;
  for (const segment of contour.segments) {
    if (segment.kind === 'arc' ? segment.sweep !== 0 : segment.to.x !== from.x || segment.to.y !== from.y) {
      parts.push({ from, segment });
    }
    from = segment.to;
  }
  parts.forEach((part, index) => {
    const moved =
      part.segment.kind === 'line'
        ? movedLine(part.from, part.segment, distance)
        : movedArc(part.from, part.segment, distance);
    if (moved !== null) out.push(moved);
    const corner = cornerArc(part, parts[(index + 1) % parts.length]!, distance);
    if (corner !== null) out.push(corner);
  });
  return out;
}

function movedLine(from: Point, line: LineSegment, distance: number): Primitive {
  const dx = line.to.x - from.x;
  const dy = line.to.y - from.y;
  const length = Math.hypot(dx, dy);
  const nx = (distance * dy) / length;
  const ny = (-distance * dx) / length;
  return {
    from: { x: from.x + nx, y: from.y + ny },
    segment: { kind: 'line', to: { x: line.to.x + nx, y: line.to.y + ny } },
  };
}

function movedArc(from: Point, arc: ArcSegment, distance: number): Primitive | null {
  const radius = arc.radius + Math.sign(arc.sweep) * distance;
  if (!(radius > 0)) return null;
  const scaled = (point: Point): Point => {
    const dx = point.x - arc.centre.x;
    const dy = point.y - arc.centre.y;
    const length = Math.hypot(dx, dy);
    return { x: arc.centre.x + (dx / length) * radius, y: arc.centre.y + (dy / length) * radius };
  };
  return { from: scaled(from), segment: { ...arc, to: scaled(arc.to), radius } };
}

function cornerArc(part: Primitive, next: Primitive, distance: number): Primitive | null {
  const before = segmentTangent(part.from, part.segment, 1);
  const after = segmentTangent(next.from, next.segment, 0);
  const cross = before.x * after.y - before.y * after.x;
  const dot = before.x * after.x + before.y * after.y;
  let turn = Math.atan2(cross, dot);
  // A full reversal is an outward point for either side.
  if (Math.abs(turn) > Math.PI - LEAST_CORNER) turn = Math.sign(distance) * Math.PI;
  if (turn * distance <= 0 || Math.abs(turn) < LEAST_CORNER) return null;
  const centre = next.from;
  return {
    from: { x: centre.x + distance * before.y, y: centre.y - distance * before.x },
    segment: {
      kind: 'arc',
      to: { x: centre.x + distance * after.y, y: centre.y - distance * after.x },
      centre,
      radius: Math.abs(distance),
      sweep: turn,
    },
  };
}
