import type { Costs } from './document.ts';

/** What one batch takes, before money. */
export interface BatchNeeds {
  readonly batch: number;
  readonly boards: number;
  /** Price of the boards used, in the shop's currency. */
  readonly boardsPrice: number;
  readonly machineSeconds: number;
}

/** Money for one batch; every figure is for one sign but `boards`. */
export interface CostRow {
  readonly batch: number;
  readonly boards: number;
  readonly material: number;
  readonly machine: number;
  readonly labour: number;
  readonly overhead: number;
  readonly costPerSign: number;
  readonly pricePerSign: number;
}

/** The sum in words, for reports. */
export const COST_FORMULA =
  'price = (materials + overhead + labour + machine) x (1 + mark-up); a mark-up of 100 % is common for wholesale';

/**
 * Cost and price of one sign when `batch` are made together.
 * Source: price = materials + overhead + labour + profit, with a common mark-up of 100 % for wholesale (published by
 * stainedglassexpress.com, 'Pricing Equation to Start a Home Based Craft Business'). Machine time is counted apart from
 * hand time because it is bought or depreciated apart.
 */
export function costRow(needs: BatchNeeds, costs: Costs): CostRow {
  const material = needs.boardsPrice / needs.batch + costs.extrasPerSign;
  const machine = ((needs.machineSeconds / 3600) * costs.machineHour) / needs.batch;
  const handMinutes = costs.handMinutesPerSign + (costs.handMinutesPerSheet * needs.boards) / needs.batch;
  const labour = (handMinutes / 60) * costs.labourHour;
  const overhead = costs.overheadPerSign;
  const costPerSign = material + machine + labour + overhead;
  return {
    batch: needs.batch,
    boards: needs.boards,
    material,
    machine,
    labour,
    overhead,
    costPerSign,
    pricePerSign: costPerSign * (1 + costs.markUp),
  };
}
