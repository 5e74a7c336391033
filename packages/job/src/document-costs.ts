import { z } from 'zod';
import { choice, number } from './document-fields.ts';

const minutes = (most: number, what: string) => number(0, most, `${what}, minutes.`).default(0);
const money = (most: number, what: string) => number(0, most, what).default(0);
const hour = number(0, 1e5, 'Cost of one machine hour of this process.').optional();

/** How fast the machine is, for times only. */
export const speedsSchema = z.strictObject({
  cut: number(0.1, 5000, 'Cutting, mm/s.').default(10),
  score: number(0.1, 5000, 'Scoring, mm/s.').default(200),
  'deep-score': number(0.1, 5000, 'Deep scoring, mm/s.').default(40),
  engrave: number(0.1, 5000, 'Engraving, mm/s.').default(150),
  travel: number(0.1, 5000, 'Moves with the beam off, mm/s.').default(300),
  acceleration: number(1, 100_000, 'Largest acceleration, mm/s2.').default(1000),
  cornerTolerance: number(0, 5, 'How far the head may cut a corner, mm; 0 stops at every corner.').default(0.05),
  pierceSeconds: number(0, 60, 'Beam on and standing before it moves, seconds for every run.').default(0),
  engraveStep: number(0.01, 5, 'Distance of the lines that an area is engraved with, mm.').default(0.1),
});

/** What a sign costs and sells at: every figure is the shop's own, in `currency`. */
export const costsSchema = z
  .strictObject({
    currency: z.string().min(1).max(8).default('EUR'),
    machineHour: money(1e5, 'Cost of one machine hour.'),
    machineHourByProcess: z
      .strictObject({ cut: hour, score: hour, 'deep-score': hour, engrave: hour })
      // Left out stays left out: an undefined would hide the general rate.
      .transform((given) => Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)))
      .prefault({})
      .meta({ description: 'Where a process costs something else than `machineHour`.' }),
    labourHour: money(1e5, 'Cost of one hour of hand work.'),
    overheadPerSign: money(1e6, 'Rent, power, filters: share of one sign.'),
    extrasPerSign: money(
      1e6,
      'Hooks, magnets, cord and the like for one sign, and paint and glue where `shop` has no prices.',
    ),
    packingPerSign: money(1e6, 'Box, wrapping and label of one sign.'),
    handMinutesPerSign: minutes(1e5, 'Painting and gluing of one sign'),
    handMinutesPerPiece: minutes(1e4, 'Cleaning and sanding one piece'),
    handMinutesPerLayer: minutes(1e4, 'Gluing one layer of a sign'),
    handMinutesPerColour: minutes(1e4, 'Setting up and cleaning for one colour, once a batch'),
    handMinutesPerSheet: minutes(1e4, 'Loading and unloading one board'),
    handMinutesPerReset: minutes(1e4, 'Moving a board that is in the machine already'),
    handMinutesPerBatch: minutes(1e5, 'Getting ready, once a batch'),
    boards: choice(
      ['whole', 'used'],
      'whole: every board is paid by this batch; used: what is left as a usable rest is paid by a later one.',
    ).default('whole'),
    offcutSquareMetre: money(1e6, 'What an offcut from the shelf counts for, a square metre.'),
    markUp: number(0, 100, 'Profit as a share of everything else; 1 = 100 %.').default(1),
    margin: number(0, 0.95, 'Profit as a share of the price, instead of `markUp`.').nullable().default(null),
    price: number(0, 1e6, 'Your own price, instead of `markUp` and `margin`.').nullable().default(null),
    feeShare: number(0, 0.9, 'What a market place or a card takes, as a share of the price.').default(0),
    feePerSign: money(1e6, 'What a market place or a card takes for each sale.'),
    speeds: speedsSchema.prefault({}),
  })
  .refine((costs) => costs.margin === null || costs.margin + costs.feeShare < 0.99, {
    path: ['margin'],
    error: 'margin and feeShare together leave nothing of the price for the cost',
  });
