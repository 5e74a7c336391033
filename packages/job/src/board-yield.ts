import { regionArea } from '@underlap/geometry/region';
import type { Sheet, Stock } from '@underlap/nest/problem';

/** Sheets of one stock with what is laid on them. */
export interface LaidSheets {
  readonly sheets: readonly Pick<Sheet, 'stockId' | 'placements'>[];
  readonly stock: readonly Stock[];
  /** Area of a piece as drawn, before kerf, mm2, by its id. */
  readonly areas: ReadonlyMap<string, number>;
}

/**
 * Area of the pieces as drawn / area of the boards and offcuts they lie on: the one figure for 'used', in reports and pictures.
 * (The nester's own yield is of the outlines as cut, half a kerf larger all round.)
 * @returns 0..1; 0 without sheets.
 */
export function boardYield(laid: readonly LaidSheets[]): number {
  let used = 0;
  let taken = 0;
  for (const { sheets, stock, areas } of laid) {
    const boards = new Map(stock.map(({ id, outline }) => [id, regionArea(outline)]));
    for (const { stockId, placements } of sheets) {
      taken += boards.get(stockId) ?? Number.POSITIVE_INFINITY;
      for (const { pieceId } of placements) used += areas.get(pieceId) ?? 0;
    }
  }
  return taken === 0 ? 0 : used / taken;
}
