import { contourArea, contourBounds } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { type Bounds, type Ring, ringPerimeter } from '@underlap/geometry/ring';
import { SegmentGrid } from './segment-grid.ts';

/** What a contour is compared by, measured once. */
export interface MeasuredContour {
  readonly contour: Contour;
  readonly bounds: Bounds;
  /** Larger side of the box. */
  readonly extent: number;
}

export function measureContour(contour: Contour): MeasuredContour {
  const bounds = contourBounds(contour);
  return { contour, bounds, extent: Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY) };
}

/** Samples along a contour, so that long edges are compared between their ends too. */
const SAMPLES = 256;

/** Remembers contours and finds the one that a further contour doubles: same curve, whatever start and direction. */
export class DoubleFinder<T> {
  private readonly cells = new Map<number, Entry<T>[]>();
  private readonly tolerance: number;

  /** @param tolerance - largest distance between the two curves anywhere, in drawing units. */
  constructor(tolerance: number) {
    this.tolerance = tolerance;
  }

  /** Every remembered contour that this one doubles. O(1) look-ups; O(points) for each contour of equal box. */
  find(measured: MeasuredContour): { readonly value: T; readonly deviation: number; readonly isSameWay: boolean }[] {
    const found: { value: T; deviation: number; isSameWay: boolean }[] = [];
    for (const key of keysNear(measured.bounds, this.tolerance)) {
      for (const entry of this.cells.get(key) ?? []) {
        const deviation = this.deviation(entry, measured);
        if (deviation !== null) {
          const isSameWay = contourArea(entry.measured.contour) * contourArea(measured.contour) >= 0;
          found.push({ value: entry.value, deviation, isSameWay });
        }
      }
    }
    return found;
  }

  remember(measured: MeasuredContour, value: T): void {
    const { minX, minY, maxX, maxY } = measured.bounds;
    const cell = (side: number): number => Math.floor(side / (CELL * this.tolerance));
    const key = keyOf(cell(minX), cell(minY), cell(maxX), cell(maxY));
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
    if (!isSameBox(known.bounds, other.bounds, tolerance)) return null;
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

/** Side of a hash cell, in tolerances: with 4, half of all sides have one cell within reach and half have two. */
const CELL = 4;

function isSameBox(a: Bounds, b: Bounds, tolerance: number): boolean {
  return (
    Math.abs(a.minX - b.minX) <= tolerance &&
    Math.abs(a.minY - b.minY) <= tolerance &&
    Math.abs(a.maxX - b.maxX) <= tolerance &&
    Math.abs(a.maxY - b.maxY) <= tolerance
  );
}

/** Cells may share a key: what is found there is compared in any case. */
function keyOf(a: number, b: number, c: number, d: number): number {
  return (Math.imul(a, 73856093) ^ Math.imul(b, 19349663) ^ Math.imul(c, 83492791) ^ Math.imul(d, 49979687)) | 0;
}

/** Keys of all cells whose boxes may lie within the tolerance: 1 to 16. */
function keysNear(bounds: Bounds, tolerance: number): ReadonlySet<number> {
  const cells = (side: number): number[] => {
    const low = Math.floor((side - tolerance) / (CELL * tolerance));
    const high = Math.floor((side + tolerance) / (CELL * tolerance));
    return low === high ? [low] : [low, high];
  };
  const keys = new Set<number>();
  for (const a of cells(bounds.minX)) {
    for (const b of cells(bounds.minY)) {
      for (const c of cells(bounds.maxX)) {
        for (const d of cells(bounds.maxY)) keys.add(keyOf(a, b, c, d));
      }
    }
  }
  return keys;
}

function gridOf({ contour }: MeasuredContour, tolerance: number): SegmentGrid {
  return new SegmentGrid(flattenContour(contour, tolerance / 5), contour.closed);
}

/** Vertices of the flattened curve, and points between where they lie far apart. */
function samplesOf({ contour }: MeasuredContour, tolerance: number): Ring {
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
