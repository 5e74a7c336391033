import { copyName } from '../copy.ts';
import type { Layout, NestProblem, Verdict, Violation } from '../problem.ts';
import { checkAccount } from './account.ts';
import { treeOf } from './bit-tree.ts';
import { bitsOfRegion, bitsOfShape, mapOf } from './bits.ts';
import { checkBoard } from './board.ts';
import { type CheckedCopy, checkGaps } from './gaps.ts';

/**
 * The independent verdict on a layout: every piece once, on a board that is in stock, in a turn that is allowed, inside the
 * board by the margin, apart from all others by the spacing, clear of forbidden zones, within a window of the bed, groups on
 * one sheet, pins where they were put.
 * @param problem - what was asked.
 * @param layout - what would be written; exact outlines are taken from the problem's pieces, placements from the layout.
 * @returns all violations with pieces, sheet (from 0) and place in the sheet's own frame; the smallest gap and margin
 * (Infinity where there is nothing to measure between).
 * @remarks Shares no geometry with the search: it maps, halves and measures exact curves with its own code, to 1e-5 mm. A
 * sheet of n pieces costs about n log n near pairs. What is nearer than asked by more than CHECK_TOLERANCE_MM is a violation.
 */
export function checkLayout(problem: NestProblem, layout: Layout): Verdict {
  const violations: Violation[] = [...checkAccount(problem, layout)];
  const pieces = new Map(problem.pieces.map((piece) => [piece.id, piece]));
  let smallestGapMm = Number.POSITIVE_INFINITY;
  let smallestMarginMm = Number.POSITIVE_INFINITY;
  layout.sheets.forEach((sheet, index) => {
    const copies: CheckedCopy[] = [];
    for (const placement of sheet.placements) {
      const piece = pieces.get(placement.pieceId);
      if (piece === undefined || ![placement.x, placement.y, placement.turnDeg].every(Number.isFinite)) continue;
      const bits =
        piece.outline === null ? bitsOfRegion(piece.region, mapOf(placement)) : bitsOfShape(piece.outline, placement);
      const { pieceId, copy } = placement;
      copies.push({ copy: { pieceId, copy }, name: copyName(placement), tree: treeOf(bits) });
    }
    const gaps = checkGaps(copies, problem.rules.spacing, index);
    violations.push(...gaps.violations);
    smallestGapMm = Math.min(smallestGapMm, gaps.smallestMm);
    const stock = problem.stock.find((s) => s.id === sheet.stockId);
    if (stock === undefined) return;
    const board = checkBoard(copies, stock, sheet, problem.rules, index);
    violations.push(...board.violations);
    smallestMarginMm = Math.min(smallestMarginMm, board.smallestMarginMm);
  });
  return { ok: violations.length === 0, smallestGapMm, smallestMarginMm, violations };
}
