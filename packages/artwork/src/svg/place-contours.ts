import { transformSegment } from '@underlap/geometry/contour';
import type { Contour, Segment } from '@underlap/geometry/curve';
import { GeometryError } from '@underlap/geometry/error';
import { apply, type Matrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import type { ComplaintList } from '../complaint-list.ts';

/**
 * Contours in drawing units, or null (and a complaint) when a number is not finite.
 * @param contours - just read; their segment lists are used up, so that a huge path is not held twice.
 */
export function placeContours(
  contours: readonly Contour[],
  matrix: Matrix,
  words: string,
  complaints: ComplaintList,
): Contour[] | null {
  try {
    const moved = contours.map((contour) => placed(contour, matrix));
    if (moved.every(isFiniteContour)) return moved;
    const message = 'it has a coordinate that is not a finite number, so it is left out: redraw it';
    complaints.add('non-finite', 'error', message, words);
  } catch (error) {
    if (!(error instanceof GeometryError)) throw error;
    complaints.add(
      'non-finite',
      'error',
      `it cannot be placed (${error.message}), so it is left out: redraw it`,
      words,
    );
  }
  return null;
}

function placed({ start, segments, closed }: Contour, matrix: Matrix): Contour {
  const own = segments as Segment[];
  for (let i = 0; i < own.length; i++) own[i] = transformSegment(own[i]!, matrix);
  return { start: apply(matrix, start), segments: own, closed };
}

function isFiniteContour({ start, segments }: Contour): boolean {
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
