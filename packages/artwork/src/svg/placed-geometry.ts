import { contourBounds } from '@underlap/geometry/contour';
import type { ContourView, Segment } from '@underlap/geometry/curve';
import { GeometryError } from '@underlap/geometry/error';
import type { Matrix } from '@underlap/geometry/matrix';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import type { Bounds } from '@underlap/geometry/ring';
import type { ComplaintList } from '../complaint-list.ts';
import { type ElementGeometry, elementGeometry } from './element-geometry.ts';
import type { ViewportSize } from './lengths.ts';
import type { Style } from './style.ts';
import type { XmlNode } from './xml-tree.ts';

/**
 * Contours of a shape element in drawing units, or null (and a complaint) when a number is not finite.
 * @param segmentLimit - largest number of path segments; what comes after is left out and told as a fault.
 * @param packer - holds the segments.
 */
export function placedGeometry(
  node: XmlNode,
  style: Style,
  viewport: ViewportSize,
  segmentLimit: number,
  matrix: Matrix,
  words: string,
  complaints: ComplaintList,
  packer: SegmentPacker = new SegmentPacker(),
): ElementGeometry | null {
  try {
    const geometry = elementGeometry(node, style, viewport, segmentLimit, matrix, packer);
    if (geometry.contours.every(isFiniteContour)) return geometry;
  } catch (error) {
    if (!(error instanceof GeometryError)) throw error;
    if (error.code === 'degenerate') {
      const message = 'it has an arc thinner than its digits can tell, so it is left out: redraw it';
      complaints.add('non-finite', 'error', message, words);
      return null;
    }
  }
  const message = 'it has a coordinate that is not a finite number, so it is left out: redraw it';
  complaints.add('non-finite', 'error', message, words);
  return null;
}

/** The box around all of them; null without any. */
export function boundsOfAll(contours: readonly ContourView[]): Bounds | null {
  const boxes = contours.map(contourBounds);
  if (boxes.length === 0) return null;
  return boxes.reduce((a, b) => ({
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  }));
}

function isFiniteContour({ start, segments }: ContourView): boolean {
  return isFinitePoint(start) && segments.every(isFiniteSegment);
}

function isFiniteSegment(segment: Segment): boolean {
  if (!isFinitePoint(segment.to)) return false;
  switch (segment.kind) {
    case 'line':
      return true;
    case 'cubic':
      return isFinitePoint(segment.c1) && isFinitePoint(segment.c2);
    case 'arc':
      return isFinitePoint(segment.centre) && Number.isFinite(segment.radius + segment.sweep);
    case 'ellipse':
      return (
        isFinitePoint(segment.centre) &&
        Number.isFinite(segment.rx + segment.ry + segment.from + segment.sweep + segment.axisTurn)
      );
  }
}

function isFinitePoint({ x, y }: Point): boolean {
  return Number.isFinite(x) && Number.isFinite(y);
}
