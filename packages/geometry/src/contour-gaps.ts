import { contourLength } from './contour.ts';
import type { Contour, Segment } from './curve.ts';
import { GeometryError } from './error.ts';
import type { Point } from './point.ts';
import { segmentLength, splitSegment } from './segment.ts';

/** A stretch of a contour, mm along it from its start. */
export interface ContourSpan {
  readonly from: number;
  readonly to: number;
}

/** Lengths nearer than this are one, mm. */
const SAME_LENGTH_MM = 1e-9;

/** Halvings for the place of a length on a curve: below a billionth of it. */
const HALVINGS = 40;

/**
 * What is left of a closed contour when stretches of it are taken out: curves stay the curves they were.
 * @param gaps - mm along the contour, rising, apart from one another, none across its start.
 * @returns one open contour a gap, in the contour's direction, the first from the end of the first gap; without gaps the contour itself.
 * @throws GeometryError `out-of-range` when gaps overlap, fall out of order or leave the contour.
 */
export function contourWithGaps(contour: Contour, gaps: readonly ContourSpan[]): Contour[] {
  const [first] = gaps;
  if (first === undefined) return [contour];
  const length = contourLength(contour);
  const ordered = gaps.every(({ from, to }, at) => from < to && to <= length && from >= (gaps[at - 1]?.to ?? 0));
  if (!ordered) throw new GeometryError('out-of-range', 'gaps have to follow one another along the contour');
  return gaps.map(({ to }, at): Contour => {
    const next = gaps[at + 1];
    if (next !== undefined) return stretch(contour, to, next.from);
    const end = stretch(contour, to, length);
    const begin = stretch(contour, 0, first.from);
    return { start: end.start, segments: [...end.segments, ...begin.segments], closed: false };
  });
}

/** The part of a contour between two lengths along it. */
function stretch(contour: Contour, from: number, to: number): Contour {
  const segments: Segment[] = [];
  let start: Point = contour.start;
  let at = contour.start;
  let before = 0;
  for (const segment of contour.segments) {
    const own = segmentLength(at, segment);
    const head = Math.max(0, from - before);
    const tail = Math.min(own, to - before);
    if (tail - head > SAME_LENGTH_MM) {
      const [kept, begin] = cutOut(at, segment, own, head, tail);
      if (segments.length === 0) start = begin;
      segments.push(kept);
    }
    before += own;
    at = segment.to;
  }
  return { start, segments, closed: false };
}

/** A segment between two lengths along it, and where that begins. */
function cutOut(from: Point, segment: Segment, length: number, head: number, tail: number): [Segment, Point] {
  let kept = segment;
  let begin = from;
  if (tail < length - SAME_LENGTH_MM) [kept] = splitSegment(from, kept, placeOf(from, kept, length, tail));
  if (head > SAME_LENGTH_MM) {
    const whole = Math.min(tail, length);
    const [first, rest] = splitSegment(from, kept, placeOf(from, kept, whole, head));
    begin = first.to;
    kept = rest;
  }
  return [kept, begin];
}

/** The parameter at a length along a segment. */
function placeOf(from: Point, segment: Segment, length: number, wanted: number): number {
  if (segment.kind === 'line' || segment.kind === 'arc') return wanted / length;
  let [low, high] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (segmentLength(from, splitSegment(from, segment, middle)[0]) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
