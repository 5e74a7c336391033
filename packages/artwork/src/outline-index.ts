import { contourArea, contourBounds, segmentPoint } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import type { Point } from '@underlap/geometry/point';
import { type Bounds, isInRing, type Ring } from '@underlap/geometry/ring';
import { BoxIndex } from './box-index.ts';
import type { DrawnShape } from './drawing.ts';

/** A closed contour with what is needed to tell what lies inside it. */
export interface ClosedOutline<G = unknown> {
  readonly group: G;
  readonly contour: ContourView;
  readonly bounds: Bounds;
  readonly area: number;
}

/** The closed contours of groups of shapes that enclose an area. */
export function closedOutlines<G extends { readonly shapes: readonly DrawnShape[] }>(
  groups: readonly G[],
): ClosedOutline<G>[] {
  return groups.flatMap((group) =>
    group.shapes
      .flatMap((shape) => shape.contours)
      .filter((contour) => contour.closed)
      .map((contour) => ({ group, contour, bounds: contourBounds(contour), area: Math.abs(contourArea(contour)) }))
      .filter(({ area }) => area > 0),
  );
}

/** Finds the outlines that a contour lies in. */
export class OutlineIndex<G> {
  private readonly outlines: readonly ClosedOutline<G>[];
  private readonly boxes: BoxIndex<ClosedOutline<G>>;
  private readonly rings = new Map<ClosedOutline<G>, Ring>();

  constructor(outlines: readonly ClosedOutline<G>[]) {
    this.outlines = outlines;
    const sides = outlines.map(({ bounds }) => Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY));
    this.boxes = new BoxIndex(sides.reduce((sum, side) => sum + side, 0) / Math.max(1, sides.length));
    for (const outline of outlines) this.boxes.add(outline.bounds, outline);
  }

  /** Those that lie in no other. */
  outermost(): Set<ClosedOutline<G>> {
    return new Set(this.outlines.filter(({ contour, bounds, area }) => !this.encloses(contour, bounds, area)));
  }

  /** Does the contour lie inside one of the outlines? */
  holds(contour: ContourView): boolean {
    return this.encloses(contour, contourBounds(contour), Math.abs(contourArea(contour)));
  }

  private encloses(contour: ContourView, bounds: Bounds, area: number): boolean {
    const witnesses = witnessesOf(contour);
    return this.boxes.at(contour.start.x, contour.start.y).some(
      (outer) =>
        outer.contour !== contour &&
        outer.area > area &&
        isBoxInside(bounds, outer.bounds) &&
        // Two of three: one may lie on a shared edge and be told either way.
        witnesses.filter(({ x, y }) => isInRing(this.ringOf(outer), x, y)).length >= 2,
    );
  }

  private ringOf(outline: ClosedOutline<G>): Ring {
    const known = this.rings.get(outline);
    if (known !== undefined) return known;
    const { minX, minY, maxX, maxY } = outline.bounds;
    const ring = flattenContour(outline.contour, Math.max(maxX - minX, maxY - minY) / 1000);
    this.rings.set(outline, ring);
    return ring;
  }
}

function witnessesOf({ start, segments }: ContourView): Point[] {
  const at = (share: number): Point => {
    const index = Math.min(segments.length - 1, Math.floor(segments.length * share));
    const segment = segments.at(index);
    const before = index > 0 ? segments.at(index - 1) : undefined;
    return segment === undefined ? start : segmentPoint(before?.to ?? start, segment, 0.5);
  };
  return [at(0), at(1 / 3), at(2 / 3)];
}

function isBoxInside(inner: Bounds, outer: Bounds): boolean {
  return inner.minX >= outer.minX && inner.minY >= outer.minY && inner.maxX <= outer.maxX && inner.maxY <= outer.maxY;
}
