import type { ContourView, Segment } from '@underlap/geometry/curve';
import type { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';

export interface CleanedContour {
  /** The contour itself when nothing was dropped; null when nothing is left of it. */
  readonly contour: ContourView | null;
  readonly dropped: number;
  /** Farthest that the curve was moved, in drawing units. */
  readonly moved: number;
}

/**
 * Drop segments without length and merge points that lie within the tolerance of the one before: they are artefacts of
 * drawing and exporting, and end up as stops of the machine. Arcs next to a dropped point are left alone unless the drop is
 * exact, since their centre would no longer fit.
 * @param packer - holds the segments of contours that change.
 * @remarks O(segments).
 */
export function cleanPoints(contour: ContourView, tolerance: number, packer: SegmentPacker): CleanedContour {
  if (!hasShortSegment(contour, tolerance)) return { contour, dropped: 0, moved: 0 };
  let from = contour.start;
  let last: Segment | null = null;
  let dropped = 0;
  let moved = 0;
  const keep = (segment: Segment): void => {
    packer.add(segment);
    last = segment;
    from = segment.to;
  };
  const settle = (segment: Segment, next: Segment | null): void => {
    const gap = Math.hypot(segment.to.x - from.x, segment.to.y - from.y);
    if (extent(from, segment) > tolerance) keep(segment);
    else if (gap === 0 || (next !== null && !isArc(next))) {
      dropped++;
      moved = Math.max(moved, gap);
    } else if (canEndElsewhere(last)) {
      packer.moveEnd(segment.to);
      from = segment.to;
      dropped++;
      moved = Math.max(moved, gap);
    } else keep(segment);
  };
  let waiting: Segment | null = null;
  for (const segment of contour.segments) {
    if (waiting !== null) settle(waiting, segment);
    waiting = segment;
  }
  if (waiting !== null) settle(waiting, null);
  const segments = packer.take();
  if (dropped === 0) return { contour, dropped: 0, moved: 0 };
  return { contour: segments.length === 0 ? null : { ...contour, segments }, dropped, moved };
}

function hasShortSegment({ start, segments }: ContourView, tolerance: number): boolean {
  let from = start;
  return segments.some((segment) => {
    const isShort = extent(from, segment) <= tolerance;
    from = segment.to;
    return isShort;
  });
}

/** Upper bound of the segment's length. */
function extent(from: Point, segment: Segment): number {
  const { to } = segment;
  switch (segment.kind) {
    case 'line':
      return distance(from, to);
    case 'cubic': {
      const { c1, c2 } = segment;
      return distance(from, c1) + distance(c1, c2) + distance(c2, to);
    }
    case 'arc':
      return Math.abs(segment.sweep) * segment.radius;
    case 'ellipse':
      return Math.abs(segment.sweep) * Math.max(segment.rx, segment.ry);
  }
}

/** Not `Math.hypot`, which is four times slower and guards against numbers that no drawing has: this runs for every segment. */
function distance(a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  return Math.sqrt(dx * dx + dy * dy);
}

function isArc(segment: Segment): boolean {
  return segment.kind === 'arc' || segment.kind === 'ellipse';
}

function canEndElsewhere(segment: Segment | null): boolean {
  return segment?.kind === 'line' || segment?.kind === 'cubic';
}
