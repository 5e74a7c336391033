import { contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { isInRegion, type Region } from '@underlap/geometry/region';
import { ringsOf } from './grid.ts';
import { NearIndex } from './near-index.ts';

/** Chords stay this near to the path while its visible length is measured, mm. */
const MEASURE_MM = 0.002;

/** Gaps and stretches shorter than this are joined with their neighbours, mm: rounding at a shared edge, not something seen. */
const SPECK_MM = 0.02;

/** Measures how much of a path lies under a cover. Build once per cover, then ask for any number of paths. */
export class CoverMeasure {
  private readonly edges = new NearIndex();

  constructor(private readonly cover: readonly Region[]) {
    for (const ring of ringsOf(cover)) this.edges.addRing(ring);
  }

  /** Stretches of the path under the cover, as [from, to] along it, mm. */
  hidden(path: Contour): (readonly [number, number])[] {
    return this.measure(path, true).stretches;
  }

  /**
   * Stretches of the path outside the cover, as [from, to] along it, and its length, mm.
   * @remarks Exact on the flattened path: every chord is cut where it crosses the cover's edge. O(chords x cells touched).
   */
  visible(path: Contour): { length: number; stretches: (readonly [number, number])[] } {
    return this.measure(path, false);
  }

  private measure(path: Contour, wanted: boolean): { length: number; stretches: (readonly [number, number])[] } {
    const line = flattenContour(path, MEASURE_MM);
    const stretches: [number, number][] = [];
    let length = 0;
    let covered: boolean | null = null;
    const show = (from: number, to: number) => {
      const last = stretches[stretches.length - 1];
      if (last !== undefined && from - last[1] <= SPECK_MM) last[1] = to;
      else stretches.push([from, to]);
    };
    for (let i = 0; i + 3 < line.length; i += 2) {
      const [x0, y0, x1, y1] = [line[i]!, line[i + 1]!, line[i + 2]!, line[i + 3]!];
      const size = Math.hypot(x1 - x0, y1 - y0);
      const crossings = this.edges.crossings(x0, y0, x1, y1);
      if (crossings.length === 0 && covered !== null) {
        if (covered === wanted) show(length, length + size);
      } else {
        const cuts = [0, ...crossings.sort((a, b) => a - b), 1];
        for (let k = 0; k + 1 < cuts.length; k++) {
          const u0 = cuts[k]!;
          const u1 = cuts[k + 1]!;
          if (u1 - u0 <= 1e-12) continue;
          const u = (u0 + u1) / 2;
          covered = this.isCovered(x0 + u * (x1 - x0), y0 + u * (y1 - y0));
          if (covered === wanted) show(length + u0 * size, length + u1 * size);
        }
      }
      length += size;
    }
    // Chords are a little shorter than arcs: stretches are told in lengths of the path itself.
    const exact = contourLength(path);
    const scale = length > 0 ? exact / length : 1;
    const told = stretches.filter(([from, to]) => to - from > SPECK_MM);
    return { length: exact, stretches: told.map(([from, to]) => [from * scale, to * scale] as const) };
  }

  isCovered(x: number, y: number): boolean {
    return this.cover.some((region) => isInRegion(region, x, y));
  }
}

/** Total length of stretches, mm. */
export function stretchesLength(stretches: readonly (readonly [number, number])[]): number {
  return stretches.reduce((sum, [from, to]) => sum + to - from, 0);
}

type Stretches = readonly (readonly [number, number])[];

/** Length that two lists of disjoint stretches have in common, mm. O(n m). */
export function sharedLength(a: Stretches, b: Stretches): number {
  let sum = 0;
  for (const [from, to] of a) for (const [low, high] of b) sum += Math.max(0, Math.min(to, high) - Math.max(from, low));
  return sum;
}
