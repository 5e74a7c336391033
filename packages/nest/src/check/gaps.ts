import type { CopyRef } from '../copy.ts';
import type { Violation } from '../problem.ts';
import { type BitTree, boxDistance, isInside, leastDistance } from './bit-tree.ts';
import { commonMaterial, deepestPoint } from './penetration.ts';
import { CHECK_TOLERANCE_MM, placeOf, told } from './tolerance.ts';

/** A copy where it lies, as exact curves. */
export interface CheckedCopy {
  readonly copy: CopyRef;
  readonly name: string;
  readonly tree: BitTree;
}

/** What lies between two sets: how far apart, or how deep in one another. */
export type Contact =
  | { readonly kind: 'far' }
  | { readonly kind: 'apart'; readonly distance: number; readonly x: number; readonly y: number }
  | { readonly kind: 'overlap'; readonly depth: number; readonly x: number; readonly y: number };

/**
 * Measure two pieces against each other.
 * @param cutoff - told 'far' beyond this distance, mm.
 */
export function contactOf(a: BitTree, b: BitTree, cutoff: number): Contact {
  if (boxDistance(a, b) > Math.max(cutoff, CHECK_TOLERANCE_MM)) return { kind: 'far' };
  // never less than the tolerance: pieces that cross must be seen to cross where no spacing is asked
  const nearest = leastDistance(a, b, Math.max(cutoff, CHECK_TOLERANCE_MM));
  const meets = boxDistance(a, b) === 0;
  if (meets && (nearest === null || nearest.distance > CHECK_TOLERANCE_MM)) {
    // outlines do not meet: one may still lie wholly inside the other's material
    if (hasStartInside(a, b) || hasStartInside(b, a)) return overlapOf(a, b);
  } else if (meets && nearest !== null) {
    const overlap = overlapOf(a, b);
    if (overlap.kind === 'overlap') return overlap;
    return { kind: 'apart', distance: nearest.distance, x: nearest.x, y: nearest.y };
  }
  return nearest === null ? { kind: 'far' } : { kind: 'apart', ...nearest };
}

function overlapOf(a: BitTree, b: BitTree): Contact {
  const first = deepestPoint(a, b, true, CHECK_TOLERANCE_MM);
  const second = deepestPoint(b, a, true, CHECK_TOLERANCE_MM);
  const reaching = first.depth >= second.depth ? first : second;
  const deeper = reaching.depth > 0 ? reaching : commonMaterial(a, b, CHECK_TOLERANCE_MM);
  return deeper.depth > CHECK_TOLERANCE_MM ? { kind: 'overlap', ...deeper } : { kind: 'far' };
}

function hasStartInside(a: BitTree, b: BitTree): boolean {
  let node = a;
  while (node.bit === null) node = node.left!;
  return isInside(b, node.bit.x0, node.bit.y0);
}

/** All pairs of pieces on a sheet that overlap or lie nearer than the spacing, and the smallest gap of the sheet. */
export function checkGaps(
  pieces: readonly CheckedCopy[],
  spacing: number,
  sheet: number,
): { violations: Violation[]; smallestMm: number } {
  const violations: Violation[] = [];
  let smallestMm = Number.POSITIVE_INFINITY;
  const sorted = pieces.slice().sort((a, b) => a.tree.minX - b.tree.minX);
  forNearPairs(sorted, spacing, (a, b) => {
    const contact = contactOf(a.tree, b.tree, Math.max(spacing, Math.min(smallestMm, spacing + 1)));
    if (contact.kind === 'far') return;
    const [p, q] = a.name <= b.name ? [a, b] : [b, a];
    const base = { copies: [p.copy, q.copy], sheet, x: contact.x, y: contact.y };
    const where = placeOf(contact.x, contact.y, sheet);
    if (contact.kind === 'overlap') {
      smallestMm = Math.min(smallestMm, -contact.depth);
      const message = `${p.name} and ${q.name} overlap by ${told(contact.depth)} mm ${where}`;
      violations.push({ ...base, kind: 'overlap', amountMm: contact.depth, message });
      return;
    }
    smallestMm = Math.min(smallestMm, contact.distance);
    if (contact.distance < spacing - CHECK_TOLERANCE_MM) {
      const message = `${p.name} and ${q.name} are ${told(contact.distance)} mm apart ${where}; ${told(spacing)} mm was asked`;
      violations.push({ ...base, kind: 'spacing', amountMm: spacing - contact.distance, message });
    }
  });
  if (smallestMm === Number.POSITIVE_INFINITY && pieces.length > 1) smallestMm = smallestGap(sorted, spacing + 1);
  return { violations, smallestMm };
}

/** Smallest gap where every pair is known to be farther apart than `from`: look in growing rings around the pieces. */
function smallestGap(sorted: readonly CheckedCopy[], from: number): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (let reach = from; smallest > reach && reach < 1e9; reach *= 2) {
    forNearPairs(sorted, reach, (a, b) => {
      const contact = contactOf(a.tree, b.tree, Math.min(reach, smallest));
      if (contact.kind === 'apart') smallest = Math.min(smallest, contact.distance);
    });
  }
  return smallest;
}

/** Pairs whose boxes lie within `reach`, by a sweep along x. @param sorted - by the left side of their boxes. */
function forNearPairs(
  sorted: readonly CheckedCopy[],
  reach: number,
  visit: (a: CheckedCopy, b: CheckedCopy) => void,
): void {
  let active: CheckedCopy[] = [];
  for (const piece of sorted) {
    active = active.filter((other) => other.tree.maxX + reach >= piece.tree.minX);
    for (const other of active) if (boxDistance(piece.tree, other.tree) <= reach) visit(other, piece);
    active.push(piece);
  }
}
