import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

export interface CleanedContour {
  /** The contour itself when nothing was dropped; null when nothing is left of it. */
  readonly contour: Contour | null;
  readonly dropped: number;
  /** Farthest that the curve was moved, in drawing units. */
  readonly moved: number;
}

/**
 * Drop segments without length and merge points that lie within the tolerance of the one before: they are artefacts of
 * drawing and exporting, and end up as stops of the machine. Arcs next to a dropped point are left alone unless the drop is
 * exact, since their centre would no longer fit.
 * @remarks O(segments).
 */
export function cleanPoints(contour: Contour, tolerance: number): CleanedContour {
  const { segments } = contour;
  if (!segments.some((segment, i) => extent(i === 0 ? contour.start : segments[i - 1]!.to, segment) <= tolerance)) {
    return { contour, dropped: 0, moved: 0 };
  }
  const kept: Segment[] = [];
  let from = contour.start;
  let dropped = 0;
  let moved = 0;
  segments.forEach((segment, index) => {
    const size = extent(from, segment);
    const isLast = index === segments.length - 1;
    const gap = Math.hypot(segment.to.x - from.x, segment.to.y - from.y);
    if (size > tolerance) {
      kept.push(segment);
      from = segment.to;
    } else if (gap === 0 || (!isLast && !isArc(segments[index + 1]))) {
      dropped++;
      moved = Math.max(moved, gap);
    } else if (canEndElsewhere(kept.at(-1))) {
      kept.push({ ...kept.pop()!, to: segment.to });
      from = segment.to;
      dropped++;
      moved = Math.max(moved, gap);
    } else {
      kept.push(segment);
      from = segment.to;
    }
  });
  if (dropped === 0) return { contour, dropped: 0, moved: 0 };
  return { contour: kept.length === 0 ? null : { ...contour, segments: kept }, dropped, moved };
}

/** Upper bound of the segment's length. */
function extent(from: Point, segment: Segment): number {
  const { to } = segment;
  switch (segment.kind) {
    case 'line':
      return Math.hypot(to.x - from.x, to.y - from.y);
    case 'cubic': {
      const { c1, c2 } = segment;
      return (
        Math.hypot(c1.x - from.x, c1.y - from.y) +
        Math.hypot(c2.x - c1.x, c2.y - c1.y) +
        Math.hypot(to.x - c2.x, to.y - c2.y)
      );
    }
    case 'arc':
      return Math.abs(segment.sweep) * segment.radius;
    case 'ellipse':
      return Math.abs(segment.sweep) * Math.max(segment.rx, segment.ry);
  }
}

function isArc(segment: Segment | undefined): boolean {
  return segment?.kind === 'arc' || segment?.kind === 'ellipse';
}

function canEndElsewhere(segment: Segment | undefined): boolean {
  return segment?.kind === 'line' || segment?.kind === 'cubic';
}
