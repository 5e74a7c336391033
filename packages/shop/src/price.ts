import { type SheetTime, TIMED_PROCESSES, type TimedProcess } from './sheet-time.ts';

/** What the shop pays and takes; money in one currency, minutes of hand work. Every figure is the shop's own. */
export interface Rates {
  readonly machineHour: number;
  /** Where a process costs something else than `machineHour`. */
  readonly machineHourByProcess: Readonly<Partial<Record<TimedProcess, number>>>;
  readonly labourHour: number;
  readonly overheadPerSign: number;
  readonly extrasPerSign: number;
  readonly packingPerSign: number;
  readonly handMinutesPerSign: number;
  readonly handMinutesPerPiece: number;
  readonly handMinutesPerLayer: number;
  /** Setting up and cleaning for one colour, once a batch. */
  readonly handMinutesPerColour: number;
  /** Loading and unloading a board. */
  readonly handMinutesPerSheet: number;
  /** Moving a board that is already in the machine. */
  readonly handMinutesPerReset: number;
  /** Getting ready, once a batch. */
  readonly handMinutesPerBatch: number;
  /** 'whole': every board is paid by this batch. 'used': what is left as a usable rest is paid by a later one. */
  readonly boards: 'whole' | 'used';
  /** What an offcut from the shelf counts for, money a square metre. */
  readonly offcutSquareMetre: number;
  /** Profit as a share of the cost; serves when `margin` and `price` are null. */
  readonly markUp: number;
  /** Profit as a share of the price, 0..1. */
  readonly margin: number | null;
  /** The price itself. */
  readonly price: number | null;
  /** What a market place or a card takes, as a share of the price, and for each sale. */
  readonly feeShare: number;
  readonly feePerSign: number;
}

/** What one batch takes, before money. */
export interface BatchNeeds {
  readonly batch: number;
  readonly boards: number;
  /** Loadings of the machine, at least one a board. */
  readonly loadings: number;
  /** Price of the boards used, whole. */
  readonly boardsPrice: number;
  /** The part of `boardsPrice` that lies in rests that can be used again. */
  readonly restPrice: number;
  /** Area of offcuts from the shelf, m2. */
  readonly offcutSquareMetres: number;
  readonly time: SheetTime;
}

/** What one sign takes whatever the batch. */
export interface SignNeeds {
  readonly pieces: number;
  readonly layers: number;
  readonly colours: number;
  readonly paintPrice: number;
  readonly gluePrice: number;
}

/** Minutes of hand work for one sign, by what they are spent on. */
export interface HandMinutes {
  readonly sign: number;
  readonly pieces: number;
  readonly layers: number;
  readonly colours: number;
  readonly loading: number;
  readonly batch: number;
}

/** Money for one batch; every figure is for one sign but `batch`, `boards` and `loadings`. */
export interface PriceRow {
  readonly batch: number;
  readonly boards: number;
  readonly loadings: number;
  readonly material: number;
  readonly paintAndGlue: number;
  readonly extras: number;
  readonly machine: number;
  readonly labour: number;
  readonly overhead: number;
  readonly costPerSign: number;
  readonly fees: number;
  readonly pricePerSign: number;
  readonly profit: number;
  /** Profit / price, 0 when the price is 0. */
  readonly margin: number;
  readonly machineMinutes: number;
  readonly handMinutes: number;
  readonly hand: HandMinutes;
  /** What is left of the price for an hour of hand work once everything else is paid; null without hand work. */
  readonly leftForHandHour: number | null;
}

/**
 * Cost and price of one sign when `batch` are made together.
 * Source: price = materials + overhead + labour + profit, with a common mark-up of 100 % for wholesale (published by
 * stainedglassexpress.com, 'Pricing Equation to Start a Home Based Craft Business'). Machine time is counted apart from hand
 * time because it is bought or depreciated apart; fees are a share of the price, so that the price is solved for.
 */
export function priceRow(needs: BatchNeeds, sign: SignNeeds, rates: Rates): PriceRow {
  const { batch } = needs;
  const boards = needs.boardsPrice - (rates.boards === 'used' ? needs.restPrice : 0);
  const material = (boards + needs.offcutSquareMetres * rates.offcutSquareMetre) / batch;
  const paintAndGlue = sign.paintPrice + sign.gluePrice;
  const extras = rates.extrasPerSign + rates.packingPerSign;
  const machine = machineMoney(needs.time, rates) / batch;
  const hand = handMinutes(needs, sign, rates);
  const minutes = Object.values(hand).reduce((sum, value) => sum + value, 0);
  const labour = (minutes / 60) * rates.labourHour;
  const overhead = rates.overheadPerSign;
  const costPerSign = material + paintAndGlue + extras + machine + labour + overhead;
  const pricePerSign = priceOf(costPerSign, rates);
  const fees = pricePerSign * rates.feeShare + rates.feePerSign;
  const profit = pricePerSign - fees - costPerSign;
  return {
    batch,
    boards: needs.boards,
    loadings: needs.loadings,
    material,
    paintAndGlue,
    extras,
    machine,
    labour,
    overhead,
    costPerSign,
    fees,
    pricePerSign,
    profit,
    margin: pricePerSign > 0 ? profit / pricePerSign : 0,
    machineMinutes: needs.time.seconds / 60 / batch,
    handMinutes: minutes,
    hand,
    leftForHandHour: minutes > 0 ? ((profit + labour) * 60) / minutes : null,
  };
}

/** How the price of these rates comes about, in words. */
export function priceFormula(rates: Rates): string {
  const cost = 'cost = boards + paint and glue + extras and packing + machine time + hand work + overhead';
  const fees =
    rates.feeShare > 0 || rates.feePerSign > 0
      ? `; fees = ${percent(rates.feeShare)} of the price + ${rates.feePerSign.toFixed(2)}`
      : '';
  if (rates.price !== null) return `${cost}${fees}; profit = your price - fees - cost`;
  if (rates.margin !== null) {
    return `${cost}${fees}; price = (cost + fee a sale) / (1 - fee share - margin of ${percent(rates.margin)})`;
  }
  const divided = fees === '' ? '' : ' + fees';
  return `${cost}${fees}; price = cost x (1 + mark-up of ${percent(rates.markUp)})${divided}; a mark-up of 100 % is common for wholesale`;
}

/**
 * Where hand work pays off: the smallest batch from which on the price leaves at least the shop's own hourly rate for hand work.
 * @param rows - rising batches.
 * @returns the batch; null when none of them does or nothing is done by hand.
 */
export function handWorkPaysFrom(rows: readonly PriceRow[], labourHour: number): number | null {
  let from: number | null = null;
  for (const row of [...rows].reverse()) {
    if (row.leftForHandHour === null || row.leftForHandHour < labourHour - 1e-9) break;
    from = row.batch;
  }
  return from;
}

function priceOf(cost: number, rates: Rates): number {
  if (rates.price !== null) return rates.price;
  if (rates.margin !== null) return (cost + rates.feePerSign) / (1 - rates.feeShare - rates.margin);
  return (cost * (1 + rates.markUp) + rates.feePerSign) / (1 - rates.feeShare);
}

function machineMoney(time: SheetTime, rates: Rates): number {
  const byProcess = TIMED_PROCESSES.reduce(
    (sum, process) => sum + time.byProcess[process] * (rates.machineHourByProcess[process] ?? rates.machineHour),
    0,
  );
  return (byProcess + time.travelSeconds * rates.machineHour) / 3600;
}

function handMinutes(needs: BatchNeeds, sign: SignNeeds, rates: Rates): HandMinutes {
  const resets = Math.max(0, needs.loadings - needs.boards);
  return {
    sign: rates.handMinutesPerSign,
    pieces: rates.handMinutesPerPiece * sign.pieces,
    layers: rates.handMinutesPerLayer * sign.layers,
    colours: (rates.handMinutesPerColour * sign.colours) / needs.batch,
    loading: (rates.handMinutesPerSheet * needs.boards + rates.handMinutesPerReset * resets) / needs.batch,
    batch: rates.handMinutesPerBatch / needs.batch,
  };
}

function percent(share: number): string {
  return `${Number((share * 100).toFixed(1))} %`;
}
