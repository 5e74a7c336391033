import type { Prepared } from '../shape/prepare.ts';
import { type Draft, pieceOf, type Unit } from './bottom-left.ts';

/** What decides which unit goes first. */
export type OrderBy = 'area' | 'width' | 'height' | 'box' | 'diagonal';

/** The orders that are worth trying, best on average first. */
export const ORDERS: readonly OrderBy[] = ['area', 'diagonal', 'box', 'width', 'height'];

/** The orders that a job of so many pieces has time for. */
export function ordersFor(pieces: number): readonly OrderBy[] {
  return ORDERS.slice(0, pieces <= 100 ? ORDERS.length : pieces <= 400 ? 2 : 1);
}

/**
 * Group pieces into units and sort them, largest first; ties by piece index so that the order is the same everywhere.
 * @param pins - boards with pieces that already have a place; the rest of their groups goes to the same boards.
 */
export function orderedUnits(prepared: Prepared, by: OrderBy, pins: Draft['boards']): Unit[] {
  const skip = new Set<number>();
  const boardOfGroup = new Map<string, number>();
  pins.forEach(({ placed }, board) => {
    for (const { copy } of placed) {
      skip.add(copy);
      const { group } = prepared.copies[copy]!;
      if (group !== null) boardOfGroup.set(group, board);
    }
  });
  const groups = new Map<string, number[]>();
  for (const copy of prepared.copies) {
    if (skip.has(copy.index)) continue;
    const key = copy.group === null ? `#${copy.index}` : `g${copy.group}`;
    const members = groups.get(key);
    if (members) members.push(copy.index);
    else groups.set(key, [copy.index]);
  }
  const size = (copy: number) => sizeOf(prepared, copy, by);
  const units = [...groups.values()].map((copies) => {
    copies.sort((a, b) => size(b) - size(a) || a - b);
    const { group } = prepared.copies[copies[0]!]!;
    return {
      copies,
      area: copies.reduce((sum, copy) => sum + pieceOf(prepared, copy).areaMm2, 0),
      board: (group === null ? undefined : boardOfGroup.get(group)) ?? null,
    };
  });
  const weight = new Map(units.map((unit) => [unit, unit.copies.reduce((sum, copy) => sum + size(copy), 0)]));
  return units.sort((a, b) => weight.get(b)! - weight.get(a)! || a.copies[0]! - b.copies[0]!);
}

function sizeOf(prepared: Prepared, copy: number, by: OrderBy): number {
  const piece = pieceOf(prepared, copy);
  const { bounds } = piece.offGrain[0] ?? piece.onGrain[0]!;
  const width = bounds.maxX - bounds.minX;
  const height = bounds.maxY - bounds.minY;
  switch (by) {
    case 'area':
      return piece.areaMm2;
    case 'width':
      return Math.max(width, height);
    case 'height':
      return height;
    case 'box':
      return width * height;
    case 'diagonal':
      return Math.hypot(width, height);
  }
}
