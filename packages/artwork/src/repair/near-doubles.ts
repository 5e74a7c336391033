import { contourArea, contourBounds, contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import type { Bounds, Ring } from '@underlap/geometry/ring';
import { SegmentGrid } from './segment-grid.ts';

/** What a contour is compared by, measured once. */
export interface MeasuredContour {
  readonly contour: Contour;
  readonly bounds: Bounds;
  readonly length: number;
  readonly area: number;
}

export function measureContour(contour: Contour): MeasuredContour {
  return { contour, bounds: contourBounds(contour), length: contourLength(contour), area: contourArea(contour) };
}

/** Samples along a contour, so that long edges are compared between their ends too. */
const SAMPLES = 256;

/** Remembers contours and finds the one that a further contour doubles: same curve, whatever start and direction. */
export class DoubleFinder<T> {
  private readonly cells = new Map<string, Entry<T>[]>();
  private readonly tolerance: number;

  /** @param tolerance - largest distance between the two curves anywhere, in drawing units. */
  constructor(tolerance: number) {
    this.tolerance = tolerance;
  }

  /** Every remembered contour that this one doubles. O(1) look-ups; O(points) for each contour of equal box and length. */
  find(measured: MeasuredContour): { readonly value: T; readonly deviation: number; readonly isSameWay: boolean }[] {
    const found: { value: T; deviation: number; isSameWay: boolean }[] = [];
    for (const key of keysNear(measured.bounds, this.tolerance)) {
      for (const entry of this.cells.get(key) ?? []) {
        const deviation = this.deviation(entry, measured);
        if (deviation !== null) {
          found.push({ value: entry.value, deviation, isSameWay: entry.measured.area * measured.area >= 0 });
        }
      }
    }
    return found;
  }

  remember(measured: MeasuredContour, value: T): void {
    const key = keyOf(cornersOf(measured.bounds).map((side) => Math.floor(side / (4 * this.tolerance))));
    const entry: Entry<T> = { measured, value, grid: null };
    const list = this.cells.get(key);
    if (list === undefined) this.cells.set(key, [entry]);
    else list.push(entry);
  }

  /** Largest distance between the curves when they are one within the tolerance, else null. */
  private deviation(entry: Entry<T>, other: MeasuredContour): number | null {
    const known = entry.measured;
    const { tolerance } = this;
    if (known.contour.closed !== other.contour.closed) return null;
    if (!cornersOf(known.bounds).every((side, i) => Math.abs(side - cornersOf(other.bounds)[i]!) <= tolerance))
      return null;
    const perimeter = Math.max(known.length, other.length);
    if (Math.abs(Math.abs(known.area) - Math.abs(other.area)) > tolerance * perimeter) return null;
    entry.grid ??= gridOf(known, tolerance);
    const there = entry.grid.farthest(samplesOf(other, tolerance), tolerance);
    if (there === null) return null;
    const back = gridOf(other, tolerance).farthest(samplesOf(known, tolerance), tolerance);
    return back === null ? null : Math.max(there, back);
  }
}

interface Entry<T> {
  readonly measured: MeasuredContour;
  readonly value: T;
  /** Built when first compared. */
  grid: SegmentGrid | null;
}

function cornersOf({ minX, minY, maxX, maxY }: Bounds): readonly number[] {
  return [minX, minY, maxX, maxY];
}

function keyOf(cells: readonly number[]): string {
  return cells.join(',');
}

/** Keys of all cells whose boxes may lie within the tolerance: usually a handful out of 81. */
function keysNear(bounds: Bounds, tolerance: number): string[] {
  let keys: number[][] = [[]];
  for (const side of cornersOf(bounds)) {
    const low = Math.floor((side - tolerance) / (4 * tolerance));
    const high = Math.floor((side + tolerance) / (4 * tolerance));
    keys = keys.flatMap((key) =>
      low === high
        ? [[...key, low]]
        : [
            [...key, low],
            [...key, high],
          ],
    );
  }
  return keys.map(keyOf);
}

function gridOf({ contour }: MeasuredContour, tolerance: number): SegmentGrid {
  return new SegmentGrid(flattenContour(contour, tolerance / 5), contour.closed);
}

/** Vertices of the flattened curve, and points between where they lie far apart. */
function samplesOf({ contour, length }: MeasuredContour, tolerance: number): Ring {
  const ring = flattenContour(contour, tolerance / 5);
  const step = length / SAMPLES;
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
