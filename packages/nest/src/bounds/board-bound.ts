import type { BoardBound } from '../problem.ts';
import type { Prepared } from '../shape/prepare.ts';

/** A number of boards that no layout of all pieces can undercut. */
export function boardBound(prepared: Prepared): BoardBound {
  return { boards: areaBound(prepared), by: 'area' };
}

/** Fewest boards whose areas, largest first and as many as there are, hold the pieces' area. */
function areaBound(prepared: Prepared): number {
  let rest = prepared.pieces.reduce((sum, piece) => sum + prepared.parts[piece.partIndex]!.areaMm2, 0);
  if (rest <= 0) return 0;
  const kinds = prepared.stocks.slice().sort((a, b) => b.areaMm2 - a.areaMm2);
  let boards = 0;
  for (const kind of kinds) {
    const needed = Math.ceil(rest / kind.areaMm2 - 1e-9);
    const count = kind.stock.count === null ? needed : Math.min(kind.stock.count, needed);
    boards += count;
    rest -= count * kind.areaMm2;
    if (rest <= 1e-6) break;
  }
  return boards;
}
