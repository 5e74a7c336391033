import { contourArea, contourBounds } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { type Bounds, type Ring, ringPerimeter } from '@underlap/geometry/ring';
import { CellBuckets } from '../cell-buckets.ts';
import type { DrawnShape } from '../drawing.ts';
import { SegmentGrid } from './segment-grid.ts';

/** All contours of a drawing by running number, with their boxes in one array: 40 bytes for each. */
export class MeasuredContours {
  /** Number of the first contour of each shape, and behind the last one how many there are. */
  readonly firsts: Int32Array;
  readonly #shapes: readonly DrawnShape[];
  readonly #boxes: Float64Array;

  constructor(shapes: readonly DrawnShape[]) {
    this.#shapes = shapes;
    this.firsts = new Int32Array(shapes.length + 1);
    shapes.forEach(({ contours }, shape) => {
      this.firsts[shape + 1] = this.firsts[shape]! + contours.length;
    });
    this.#boxes = new Float64Array(4 * this.count);
    let at = 0;
    for (const shape of shapes) {
      for (const contour of shape.contours) {
        const { minX, minY, maxX, maxY } = contourBounds(contour);
        this.#boxes.set([minX, minY, maxX, maxY], at);
        at += 4;
      }
    }
  }

  get count(): number {
    return this.firsts[this.firsts.length - 1]!;
  }

  bounds(index: number): Bounds {
    const [minX, minY, maxX, maxY] = this.#boxes.subarray(4 * index, 4 * index + 4);
    return { minX: minX!, minY: minY!, maxX: maxX!, maxY: maxY! };
  }

  /** Which of a box's four sides lies where, without an object for it: 0 left, 1 top, 2 right, 3 bottom. */
  side(index: number, side: number): number {
    return this.#boxes[4 * index + side]!;
  }

  /** Larger side of the box. */
  extent(index: number): number {
    return Math.max(this.side(index, 2) - this.side(index, 0), this.side(index, 3) - this.side(index, 1));
  }

  contour(shape: number, index: number): ContourView {
    return this.#shapes[shape]!.contours[index - this.firsts[shape]!]!;
  }

  /** The shape that a contour belongs to. O(log shapes). */
  shapeOf(index: number): number {
    let low = 0;
    let high = this.#shapes.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.firsts[middle]! <= index) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}

/** Samples along a contour, so that long edges are compared between their ends too. */
const SAMPLES = 256;

/** A remembered contour that another one doubles. */
export interface FoundDouble {
  readonly index: number;
  readonly deviation: number;
  readonly isSameWay: boolean;
}

/** Remembers contours and finds the one that a further contour doubles: same curve, whatever start and direction. */
export class DoubleFinder {
  readonly #measured: MeasuredContours;
  readonly #tolerance: number;
  readonly #buckets: CellBuckets;
  readonly #styles: Int32Array;
  /** Built when first compared. */
  readonly #grids = new Map<number, SegmentGrid>();

  /** @param tolerance - largest distance between the two curves anywhere, in drawing units. */
  constructor(measured: MeasuredContours, tolerance: number) {
    this.#measured = measured;
    this.#tolerance = tolerance;
    this.#buckets = new CellBuckets(measured.count);
    this.#styles = new Int32Array(measured.count);
  }

  /**
   * Every remembered contour of the style that this one doubles, in drawing order. O(1) look-ups; O(points) for each contour
   * of equal box.
   */
  find(index: number, style: number): FoundDouble[] {
    const found: FoundDouble[] = [];
    for (const bucket of this.#bucketsNear(index, style)) {
      for (let other = this.#buckets.first(bucket); other !== -1; other = this.#buckets.after(other)) {
        if (this.#styles[other] !== style) continue;
        const deviation = this.#deviation(other, index);
        if (deviation === null) continue;
        const isSameWay = contourArea(this.#contour(other)) * contourArea(this.#contour(index)) >= 0;
        found.push({ index: other, deviation, isSameWay });
      }
    }
    return found.length < 2 ? found : found.sort((a, b) => a.index - b.index);
  }

  remember(index: number, style: number): void {
    const at = (side: number): number => this.#cell(index, side, 0);
    this.#styles[index] = style;
    this.#buckets.add(index, this.#buckets.bucketOf(at(0), at(1), at(2), at(3), style));
  }

  #contour(index: number): ContourView {
    return this.#measured.contour(this.#measured.shapeOf(index), index);
  }

  /** Largest distance between the curves when they are one within the tolerance, else null. */
  #deviation(known: number, other: number): number | null {
    if (!this.#isSameBox(known, other)) return null;
    const tolerance = this.#tolerance;
    const a = this.#contour(known);
    const b = this.#contour(other);
    if (a.closed !== b.closed) return null;
    const grid = this.#grids.get(known) ?? gridOf(a, tolerance);
    this.#grids.set(known, grid);
    const there = grid.farthest(samplesOf(b, tolerance), tolerance);
    if (there === null) return null;
    const back = gridOf(b, tolerance).farthest(samplesOf(a, tolerance), tolerance);
    return back === null ? null : Math.max(there, back);
  }

  #isSameBox(a: number, b: number): boolean {
    for (let side = 0; side < 4; side++) {
      if (Math.abs(this.#measured.side(a, side) - this.#measured.side(b, side)) > this.#tolerance) return false;
    }
    return true;
  }

  /** Buckets of all cells whose boxes may lie within the tolerance, each once: 1 to 16. */
  #bucketsNear(index: number, style: number): readonly number[] {
    const reach = this.#tolerance;
    const buckets: number[] = [];
    for (let a = this.#cell(index, 0, -reach); a <= this.#cell(index, 0, reach); a++) {
      for (let b = this.#cell(index, 1, -reach); b <= this.#cell(index, 1, reach); b++) {
        for (let c = this.#cell(index, 2, -reach); c <= this.#cell(index, 2, reach); c++) {
          for (let d = this.#cell(index, 3, -reach); d <= this.#cell(index, 3, reach); d++) {
            const bucket = this.#buckets.bucketOf(a, b, c, d, style);
            if (!buckets.includes(bucket)) buckets.push(bucket);
          }
        }
      }
    }
    return buckets;
  }

  /** Cell of one side of a contour's box, shifted by `by`. */
  #cell(index: number, side: number, by: number): number {
    return Math.floor((this.#measured.side(index, side) + by) / (CELL * this.#tolerance));
  }
}

/** Side of a hash cell, in tolerances: with 4, half of all sides have one cell within reach and half have two. */
const CELL = 4;

function gridOf(contour: ContourView, tolerance: number): SegmentGrid {
  return new SegmentGrid(flattenContour(contour, tolerance / 5), contour.closed);
}

/** Vertices of the flattened curve, and points between where they lie far apart. */
function samplesOf(contour: ContourView, tolerance: number): Ring {
  const ring = flattenContour(contour, tolerance / 5);
  const step = ringPerimeter(ring) / SAMPLES;
  const points: number[] = [];
  const count = ring.length / 2;
  const edges = contour.closed ? count : count - 1;
  for (let i = 0; i < edges; i++) {
    const j = (i + 1) % count;
    const [x, y, toX, toY] = [ring[2 * i]!, ring[2 * i + 1]!, ring[2 * j]!, ring[2 * j + 1]!];
    const pieces = Math.max(1, Math.ceil(Math.hypot(toX - x, toY - y) / Math.max(step, tolerance)));
    for (let k = 0; k < pieces; k++) points.push(x + ((toX - x) * k) / pieces, y + ((toY - y) * k) / pieces);
  }
  if (!contour.closed) points.push(ring.at(-2)!, ring.at(-1)!);
  return Float64Array.from(points);
}
