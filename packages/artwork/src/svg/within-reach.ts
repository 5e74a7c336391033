import { contourBounds } from '@underlap/geometry/contour';
import type { ContourView, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape } from '../drawing.ts';
import { MAX_COORDINATE_MM, MAX_RADIUS_MM } from './limits.ts';

/** Largest bulge of an arc that may be read as a line, mm. */
const UNSEEN_BULGE_MM = 1e-3;

/** The shapes that lie within half a kilometre; others are left out and told, since no later step could compute with them. */
export function withinReach(shapes: readonly DrawnShape[], complaints: ComplaintList): DrawnShape[] {
  return shapes.flatMap((shape) => {
    const contours = shape.contours.map(withoutHugeArcs);
    if (contours.every(isNear))
      return [contours.every((contour, i) => contour === shape.contours[i]) ? shape : { ...shape, contours }];
    const message = `it reaches further than ${MAX_COORDINATE_MM / 1e6} km, so it is left out: bring it back to the drawing's page`;
    complaints.add('out-of-range', 'error', message, shape.place.element);
    return [];
  });
}

function isNear({ start, segments, closed }: ContourView): boolean {
  if (!isNearPoint(start) || !segments.every(isNearSegment)) return false;
  // An arc may bulge far beyond its ends.
  if (segments.every(({ kind }) => kind === 'line' || kind === 'cubic')) return true;
  const { minX, minY, maxX, maxY } = contourBounds({ start, segments, closed });
  return isNearPoint({ x: minX, y: minY }) && isNearPoint({ x: maxX, y: maxY });
}

function isNearSegment(segment: Segment): boolean {
  if (!isNearPoint(segment.to)) return false;
  if (segment.kind === 'cubic') return isNearPoint(segment.c1) && isNearPoint(segment.c2);
  if (segment.kind === 'line') return true;
  return radiusOf(segment) <= MAX_RADIUS_MM;
}

function isNearPoint({ x, y }: Point): boolean {
  return Math.abs(x) <= MAX_COORDINATE_MM && Math.abs(y) <= MAX_COORDINATE_MM;
}

/** Arcs of absurd radius come from exports of nearly straight lines. */
function withoutHugeArcs(contour: ContourView): ContourView {
  const { segments } = contour;
  if (segments.every((segment) => radiusOf(segment) <= MAX_RADIUS_MM)) return contour;
  let end = contour.start;
  const straightened = [...segments].map((segment): Segment => {
    const radius = radiusOf(segment);
    const from = end;
    end = segment.to;
    const chord = Math.hypot(segment.to.x - from.x, segment.to.y - from.y);
    const isStraight = radius > MAX_RADIUS_MM && isShort(segment) && ((chord / radius) * chord) / 8 <= UNSEEN_BULGE_MM;
    return isStraight ? { kind: 'line', to: segment.to } : segment;
  });
  return { ...contour, segments: straightened };
}

/** The way round the far side of a huge circle is no line. */
function isShort(segment: Segment): boolean {
  return (segment.kind === 'arc' || segment.kind === 'ellipse') && Math.abs(segment.sweep) < Math.PI;
}

function radiusOf(segment: Segment): number {
  if (segment.kind === 'arc') return segment.radius;
  return segment.kind === 'ellipse' ? Math.max(segment.rx, segment.ry) : 0;
}
