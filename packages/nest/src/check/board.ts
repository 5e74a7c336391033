import type { CopyRef } from '../copy.ts';
import type { NestRules, Sheet, SheetWindow, Span, Stock, Violation } from '../problem.ts';
import { type BitTree, boxDistance, isInside, leastDistance, treeOf } from './bit-tree.ts';
import { bitsOfRegion } from './bits.ts';
import { type CheckedCopy, contactOf } from './gaps.ts';
import { deepestPoint } from './penetration.ts';
import { CHECK_TOLERANCE_MM, placeOf, told } from './tolerance.ts';

/** Margin, outside, forbidden zones and windows of one sheet. */
export function checkBoard(
  pieces: readonly CheckedCopy[],
  stock: Stock,
  sheet: Sheet,
  rules: NestRules,
  index: number,
): { violations: Violation[]; smallestMarginMm: number } {
  const violations: Violation[] = [];
  const outline = treeOf(bitsOfRegion(stock.outline));
  let smallestMarginMm = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    const found = checkEdge(piece, outline, stock.id, rules.margin, index, smallestMarginMm);
    smallestMarginMm = Math.min(smallestMarginMm, found.marginMm);
    if (found.violation !== null) violations.push(found.violation);
  }
  stock.forbidden.forEach((zone, number) => {
    const tree = treeOf(bitsOfRegion(zone));
    for (const piece of pieces) {
      const contact = contactOf(piece.tree, tree, rules.spacing);
      if (contact.kind === 'far') continue;
      const gap = contact.kind === 'overlap' ? -contact.depth : contact.distance;
      if (gap >= rules.spacing - CHECK_TOLERANCE_MM && contact.kind === 'apart') continue;
      const where = placeOf(contact.x, contact.y, index);
      const message =
        contact.kind === 'overlap'
          ? `${piece.name} lies ${told(contact.depth)} mm inside forbidden zone ${number + 1} ${where}`
          : `${piece.name} is ${told(gap)} mm from forbidden zone ${number + 1} ${where}; ${told(rules.spacing)} mm was asked`;
      violations.push({
        kind: 'forbidden',
        copies: [piece.copy],
        sheet: index,
        x: contact.x,
        y: contact.y,
        amountMm: rules.spacing - gap,
        message,
      });
    }
  });
  violations.push(...checkWindows(pieces, stock, sheet, index));
  return { violations, smallestMarginMm };
}

function checkEdge(
  piece: CheckedCopy,
  outline: BitTree,
  stockId: string,
  margin: number,
  sheet: number,
  smallest: number,
): { marginMm: number; violation: Violation | null } {
  // not less than the tolerance: a piece on the very edge must be met even where another one touches already
  const reach = Math.max(margin, 2 * CHECK_TOLERANCE_MM, Math.min(smallest, Number.MAX_VALUE));
  const nearest = leastDistance(piece.tree, outline, reach);
  const isCrossed = nearest !== null && nearest.distance <= CHECK_TOLERANCE_MM;
  const start = firstPoint(piece.tree);
  // an outline's hole may also lie wholly inside the piece: then the board's curves start inside the piece
  const isOut = isCrossed
    ? deepestPoint(piece.tree, outline, false, CHECK_TOLERANCE_MM).depth > CHECK_TOLERANCE_MM
    : !isInside(outline, start.x, start.y) || holdsAHole(piece.tree, outline);
  if (isOut) {
    const deep = deepestPoint(piece.tree, outline, false, CHECK_TOLERANCE_MM);
    const at = deep.depth > 0 ? deep : { ...start, depth: 0 };
    const message = `${piece.name} reaches ${told(at.depth)} mm beyond board ${stockId} ${placeOf(at.x, at.y, sheet)}`;
    return {
      marginMm: -at.depth,
      violation: { kind: 'outside', copies: [piece.copy], sheet, x: at.x, y: at.y, amountMm: at.depth, message },
    };
  }
  if (nearest === null) return { marginMm: smallest, violation: null };
  if (nearest.distance >= margin - CHECK_TOLERANCE_MM) return { marginMm: nearest.distance, violation: null };
  const message = `${piece.name} is ${told(nearest.distance)} mm from the edge of board ${stockId} ${placeOf(nearest.x, nearest.y, sheet)}; ${told(margin)} mm was asked`;
  return {
    marginMm: nearest.distance,
    violation: {
      kind: 'margin',
      copies: [piece.copy],
      sheet,
      x: nearest.x,
      y: nearest.y,
      amountMm: margin - nearest.distance,
      message,
    },
  };
}

function firstPoint(tree: BitTree): { x: number; y: number } {
  let node = tree;
  while (node.bit === null) node = node.left!;
  return { x: node.bit.x0, y: node.bit.y0 };
}

/** Does any curve of the board start in the piece's material? Asked only when outlines do not cross. */
function holdsAHole(piece: BitTree, outline: BitTree): boolean {
  if (boxDistance(piece, outline) > 0) return false;
  const visit = (node: BitTree): boolean => {
    if (node.minX > piece.maxX || node.maxX < piece.minX || node.minY > piece.maxY || node.maxY < piece.minY)
      return false;
    if (node.bit !== null) return isInside(piece, node.bit.x0, node.bit.y0);
    return visit(node.left!) || visit(node.right!);
  };
  return visit(outline);
}

/** Every piece wholly in exactly one window, and every window one that the stock's reach knows. */
function checkWindows(pieces: readonly CheckedCopy[], stock: Stock, sheet: Sheet, index: number): Violation[] {
  const { reach } = stock;
  if (reach === undefined) return [];
  const violations: Violation[] = [];
  for (const { x, y, width, height, copies } of sheet.windows) {
    if (isSpan(reach.columns, x, width) && isSpan(reach.rows, y, height)) continue;
    const message = `a window of ${told(width)} x ${told(height)} mm at ${told(x)}, ${told(y)} of sheet ${index + 1} is not what one loading reaches`;
    violations.push({ kind: 'window', copies, sheet: index, x, y, amountMm: 0, message });
  }
  for (const { copy, name, tree } of pieces) {
    const isIt = (other: CopyRef) => other.pieceId === copy.pieceId && other.copy === copy.copy;
    const own = sheet.windows.filter((window) => window.copies.some(isIt));
    const base = { kind: 'window' as const, copies: [copy], sheet: index, x: tree.minX, y: tree.minY };
    if (own.length !== 1) {
      const message = `${name} is listed in ${own.length} windows of sheet ${index + 1}; it must be cut in exactly one`;
      violations.push({ ...base, amountMm: 0, message });
      continue;
    }
    const { x, y, width, height } = own[0]!;
    const beyond = Math.max(x - tree.minX, y - tree.minY, tree.maxX - x - width, tree.maxY - y - height);
    if (beyond > CHECK_TOLERANCE_MM && beyondExactly(tree, own[0]!) > CHECK_TOLERANCE_MM) {
      const message = `${name} reaches ${told(beyond)} mm out of the loading at ${told(x)}, ${told(y)} of sheet ${index + 1}`;
      violations.push({ ...base, amountMm: beyond, message });
    }
  }
  return violations;
}

function isSpan(spans: readonly Span[], from: number, length: number): boolean {
  return spans.some(
    (span) =>
      Math.abs(span.from - from) <= CHECK_TOLERANCE_MM && Math.abs(span.to - from - length) <= CHECK_TOLERANCE_MM,
  );
}

/** Boxes of curved bits are a little large: look at the curve itself before a piece is blamed. */
function beyondExactly(tree: BitTree, { x, y, width, height }: SheetWindow): number {
  const right = x + width;
  const low = y + height;
  const window = treeOf(bitsOfRegion({ outer: Float64Array.of(x, y, right, y, right, low, x, low), holes: [] }));
  return deepestPoint(tree, window, false, CHECK_TOLERANCE_MM).depth;
}
