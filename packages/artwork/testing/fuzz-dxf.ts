import type { Drawing } from '../src/drawing.ts';
import { readDxf } from '../src/dxf/read-dxf.ts';
import { ArtworkError } from '../src/error.ts';

/**
 * Read a spoilt text and look at what comes of it, for tests.
 * @returns 'refused' for a clear error, 'read' for a drawing.
 * @throws Error for anything else: another error, a number that is not finite, a contour that does not end where it says.
 */
export function outcomeOf(text: string): 'refused' | 'read' {
  let drawing: Drawing;
  try {
    drawing = readDxf(text, { name: 'spoilt.dxf' });
  } catch (error) {
    if (error instanceof ArtworkError && error.code !== 'internal') return 'refused';
    throw error;
  }
  const check = (value: number): void => {
    if (!Number.isFinite(value)) throw new Error('a number that is not finite');
  };
  for (const { contours, place } of drawing.shapes) {
    if (place.at !== null) check(place.at.x + place.at.y);
    for (const { start, segments, closed } of contours) {
      check(start.x + start.y);
      for (const segment of segments) {
        check(segment.to.x + segment.to.y);
        if (segment.kind === 'cubic') check(segment.c1.x + segment.c1.y + segment.c2.x + segment.c2.y);
        if (segment.kind === 'arc') check(segment.centre.x + segment.centre.y + segment.radius + segment.sweep);
        if (segment.kind === 'ellipse')
          check(segment.centre.x + segment.centre.y + segment.rx + segment.ry + segment.sweep);
      }
      const end = segments.at(-1)?.to ?? start;
      if (closed && (end.x !== start.x || end.y !== start.y))
        throw new Error('a closed contour that does not end on its start');
    }
  }
  for (const { place, message } of drawing.complaints) {
    if (message === '') throw new Error('a complaint without words');
    if (place.at !== null) check(place.at.x + place.at.y);
  }
  return 'read';
}
