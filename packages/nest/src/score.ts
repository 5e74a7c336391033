import { regionArea } from '@underlap/geometry/region';
import type { Draft } from './blf/bottom-left.ts';
import { placedArea } from './draft-layout.ts';
import { largestOffcut } from './offcut.ts';
import type { Prepared } from './shape/prepare.ts';

/**
 * What a draft is worth as a list of numbers, smaller is better, compared from the left: a total order, so that the best of
 * several independent searches does not depend on which ended first.
 * Pieces left over; boards and price (the aim decides which comes first); board area; then what the job asked for: free
 * rectangle on the emptiest board, or travel between pieces; then the other one; then how far left everything lies.
 */
export function scoreOf(prepared: Prepared, draft: Draft): number[] {
  const { aim, then, spacing } = prepared.problem.rules;
  const used = draft.boards.filter((board) => board.placed.length > 0);
  const price = used.reduce((sum, board) => sum + board.stock.stock.price, 0);
  const area = used.reduce((sum, board) => sum + board.stock.areaMm2, 0);
  const first = aim === 'cheapest' ? [price, used.length] : [used.length, price];
  let emptiest: (typeof used)[number] | null = null;
  let leastShare = Number.POSITIVE_INFINITY;
  for (const board of used) {
    const share = placedArea(prepared, board.placed) / board.stock.areaMm2;
    if (share < leastShare) {
      leastShare = share;
      emptiest = board;
    }
  }
  const offcut = emptiest === null ? null : largestOffcut(emptiest.stock, emptiest.placed, spacing);
  const free = offcut === null ? 0 : -Math.round(regionArea(offcut));
  const travel = Math.round(used.reduce((sum, board) => sum + travelOf(board.placed), 0));
  const lean = used.reduce((sum, board) => sum + board.placed.reduce((s, p) => s + p.x + p.turned.bounds.maxX, 0), 0);
  const rest = then === 'largest-offcut' ? [free, travel] : [travel, free];
  return [draft.left.length, ...first, area, ...rest, lean];
}

/** Negative when a is better, positive when b is; 0 only for scores that are equal throughout. */
export function compareScores(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) {
    const difference = a[i]! - b[i]!;
    // prices and areas are sums: the order of adding must not decide
    if (Math.abs(difference) > 1e-9 * Math.max(1, Math.abs(a[i]!))) return difference;
  }
  return 0;
}

/** Way of the head from piece to nearest next piece, from the board's corner, mm: what layouts of equal cuts differ by. O(n^2). */
function travelOf(placed: Draft['boards'][number]['placed']): number {
  const rest = placed.map(({ turned: { bounds }, x, y }) => ({
    x: x + (bounds.minX + bounds.maxX) / 2,
    y: y + (bounds.minY + bounds.maxY) / 2,
  }));
  let at = { x: 0, y: 0 };
  let sum = 0;
  while (rest.length > 0) {
    let nearest = 0;
    let least = Number.POSITIVE_INFINITY;
    rest.forEach((point, i) => {
      const d = Math.hypot(point.x - at.x, point.y - at.y);
      if (d < least) {
        least = d;
        nearest = i;
      }
    });
    sum += least;
    at = rest.splice(nearest, 1)[0]!;
  }
  return sum;
}
