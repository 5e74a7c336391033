import { regionArea } from '@underlap/geometry/region';
import type { ReportStock } from './report-input.ts';
import type { Report, ReportSheet } from './report-schema.ts';
import type { DesignResult } from './stages.ts';

/**
 * What belongs to each order: its designs, the sheets that hold its pieces, a kit list, and its share of the cost: boards and
 * machine time by the area of its pieces, everything else by its signs.
 */
export function reportOrders(
  designs: readonly DesignResult[],
  stocks: readonly ReportStock[],
  sheets: readonly ReportSheet[],
  cost: Report['cost']['rows'][number] | null,
): Report['orders'] {
  const areas = new Map(stocks.flatMap(({ pieces }) => pieces.map((piece) => [piece.id, regionArea(piece.region)])));
  const areaOf = (placements: readonly ReportSheet['placements'][number][]) =>
    sum(placements, ({ piece }) => areas.get(piece) ?? 0);
  const all = areaOf(sheets.flatMap(({ placements }) => placements));
  return [...new Set(designs.map(({ design }) => design.order))].map((order) => {
    const own = designs.filter(({ design }) => design.order === order);
    const holding = sheets.filter(({ placements }) => placements.some((placement) => placement.order === order));
    const placed = holding.flatMap(({ placements }) => placements.filter((placement) => placement.order === order));
    const signs = sum(own, ({ design }) => design.count);
    const areaMm2 = areaOf(placed);
    const share = all === 0 ? 0 : areaMm2 / all;
    const byArea = cost === null ? 0 : (cost.material + cost.machine) * cost.batch;
    const rest = cost === null ? 0 : cost.costPerSign - cost.material - cost.machine;
    const total = byArea * share + rest * signs;
    return {
      order,
      signs,
      designs: own.map(({ design }) => ({ id: design.id, count: design.count })),
      sheets: holding.map(({ id }) => id),
      pieces: placed.length,
      areaMm2,
      kit: kitOf(placed, holding),
      cost: total,
      price: cost === null || cost.costPerSign === 0 ? 0 : total * (cost.pricePerSign / cost.costPerSign),
    };
  });
}

/** Every kind of piece with how many there are and on which sheets, for gathering an order from the boards. */
function kitOf(
  placed: readonly ReportSheet['placements'][number][],
  sheets: readonly ReportSheet[],
): Report['orders'][number]['kit'] {
  return [...new Set(placed.map(({ piece }) => piece))].map((piece) => {
    const copies = placed.filter((placement) => placement.piece === piece);
    return {
      piece,
      number: copies[0]!.number,
      count: copies.length,
      sheets: sheets.filter(({ placements }) => placements.some((one) => one.piece === piece)).map(({ id }) => id),
    };
  });
}

export function sum<T>(list: readonly T[], value: (item: T) => number): number {
  return list.reduce((total, item) => total + value(item), 0);
}
