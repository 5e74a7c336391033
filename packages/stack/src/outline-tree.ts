import { holds, type Outline } from './outline.ts';

/** An outline with its nesting depth (0 = lies in no other) and the outlines directly inside it. */
export interface OutlineNode {
  readonly outline: Outline;
  readonly depth: number;
  readonly inside: readonly Outline[];
}

/**
 * Tell what lies directly in what.
 * @returns one node an outline, in the given order.
 * @remarks Sorted by area, each outline looks for its smallest holder among the larger ones: O(n^2) box tests, a point test
 * only where a box lies in a box.
 */
export function nestOutlines(outlines: readonly Outline[]): OutlineNode[] {
  const bySize = [...outlines].sort((first, second) => second.area - first.area);
  const holder = new Map<Outline, Outline | null>();
  bySize.forEach((outline, index) => {
    let found: Outline | null = null;
    for (let k = index - 1; k >= 0 && found === null; k--) {
      const candidate = bySize[k]!;
      if (holds(candidate, outline)) found = candidate;
    }
    holder.set(outline, found);
  });
  const depth = new Map<Outline, number>();
  const inside = new Map<Outline, Outline[]>();
  for (const outline of bySize) {
    const parent = holder.get(outline) ?? null;
    depth.set(outline, parent === null ? 0 : depth.get(parent)! + 1);
    if (parent !== null) inside.set(parent, [...(inside.get(parent) ?? []), outline]);
  }
  return outlines.map((outline) => ({
    outline,
    depth: depth.get(outline)!,
    inside: inside.get(outline) ?? [],
  }));
}
