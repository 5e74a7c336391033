import type { Drawing, DrawnShape } from '@underlap/artwork/drawing';
import { polylineContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';

/** A closed rectangle; for tests. */
export function rectangle(x: number, y: number, width: number, height: number): Contour {
  return polylineContour(Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height), true);
}

/** A shape as a reader would give it; for tests. */
export function drawn(id: string, contours: readonly Contour[], look: Partial<DrawnShape> = {}): DrawnShape {
  return {
    id,
    name: id,
    layer: null,
    contours,
    fillRule: 'nonzero',
    fill: null,
    stroke: null,
    strokeWidthMm: 0.1,
    place: { element: `path '${id}'`, at: contours[0]?.start ?? null },
    ...look,
  };
}

/** A drawing of known size; for tests. */
export function drawingOf(shapes: readonly DrawnShape[]): Drawing {
  return {
    name: 'test',
    format: 'svg',
    size: { kind: 'known', widthMm: 500, heightMm: 500, source: 'file' },
    shapes,
    repairs: [],
    texts: [],
    complaints: [],
  };
}
