import { intersectRegions, subtractRegions, unionRegions } from '@underlap/geometry/boolean';
import { flattenContour } from '@underlap/geometry/flatten';
import { goesInRectangle } from '@underlap/geometry/goes-in-rectangle';
import { bufferPolyline, offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionArea } from '@underlap/geometry/region';
import { reversedRing } from '@underlap/geometry/ring';
import type { SeamSizes } from './sizes.ts';
import type { Seam, SeamTask } from './task.ts';

/** How far a plate reaches beyond the knobs, how far it stays inside the outline, and clear of holes, mm. */
const GRIP_MM = 20;
const INSET_MM = 8;
const HOLE_CLEAR_MM = 4;
/** Corners of a plate are rounded by opening it with this radius, mm. */
const OPEN_MM = 10;
/** Shorter stretches that show, and that are hidden but not held, are left to the knobs, mm. */
const LEAST_SHOWN_MM = 5;
const LEAST_LOOSE_MM = 25;
/** Plates smaller than this hold nothing, mm2. */
const LEAST_MM2 = 900;
/** Rounded corners need no more than this, mm. */
const ARC_MM = 0.05;

/**
 * Rear splice plates: one behind every stretch of seam that no glued part holds, as one more part to cut.
 * @returns disjoint regions in the part's frame, each within the limits; empty where there is no room for one.
 * @remarks A handful of offsets and booleans, O(n log n). Values: common practice, no source.
 */
export function splicePlates(task: SeamTask, seams: readonly Seam[], sizes: SeamSizes): Region[] {
  const reach = sizes.reach + GRIP_MM;
  const buffers: Region[] = [];
  for (const seam of seams) {
    for (const [from, to] of looseStretches(seam)) {
      const line = stretchOf(flattenContour(seam.spine, ARC_MM), from / seam.lengthMm, to / seam.lengthMm);
      if (line.length >= 4) buffers.push(...bufferPolyline(line, reach));
    }
  }
  if (buffers.length === 0) return [];
  const inner = offsetRegions([{ outer: task.region.outer, holes: [] }], -INSET_MM, ARC_MM);
  const holes = task.region.holes.map((hole): Region => ({ outer: reversedRing(hole), holes: [] }));
  const barred = holes.length > 0 ? offsetRegions(holes, HOLE_CLEAR_MM, ARC_MM) : [];
  const room = subtractRegions(intersectRegions(unionRegions(buffers), inner), [...barred, ...task.keepOuts]);
  const opened = offsetRegions(offsetRegions(room, -OPEN_MM, ARC_MM), OPEN_MM, ARC_MM);
  return opened.filter(
    (region) =>
      regionArea(region) >= LEAST_MM2 &&
      task.limits.every((limit) => goesInRectangle(region.outer, limit.width - task.kerf, limit.height - task.kerf)),
  );
}

/** Stretches that nothing holds and that are long enough to matter: soon where they show, later where they are hidden. */
function looseStretches(seam: Seam): (readonly [number, number])[] {
  const ends = [...seam.held, [seam.lengthMm, seam.lengthMm] as const];
  const loose = ends.map(([from], index) => [index === 0 ? 0 : ends[index - 1]![1], from] as const);
  const shows = (from: number, to: number): boolean =>
    seam.visible.some(([a, b]) => Math.min(b, to) - Math.max(a, from) >= LEAST_SHOWN_MM);
  return loose.filter(([from, to]) => to - from >= LEAST_LOOSE_MM || shows(from, to));
}

/** The part of a polyline between two shares of its length. */
function stretchOf(line: Float64Array, from: number, to: number): Float64Array {
  const lengths = [0];
  for (let i = 2; i < line.length; i += 2) {
    lengths.push(lengths[lengths.length - 1]! + Math.hypot(line[i]! - line[i - 2]!, line[i + 1]! - line[i - 1]!));
  }
  const total = lengths[lengths.length - 1]!;
  const out: number[] = [];
  const pointAt = (s: number) => {
    let k = 1;
    while (k < lengths.length - 1 && lengths[k]! < s) k++;
    const u = (s - lengths[k - 1]!) / (lengths[k]! - lengths[k - 1]! || 1);
    const i = 2 * k;
    out.push(line[i - 2]! + u * (line[i]! - line[i - 2]!), line[i - 1]! + u * (line[i + 1]! - line[i - 1]!));
  };
  pointAt(from * total);
  lengths.forEach((s, k) => {
    if (s > from * total && s < to * total) out.push(line[2 * k]!, line[2 * k + 1]!);
  });
  pointAt(to * total);
  return Float64Array.from(out);
}
