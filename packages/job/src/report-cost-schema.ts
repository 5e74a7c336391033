import { z } from 'zod';

const seconds = z.number().min(0);

/** Machine time by what the beam does; these and `travel` add up to the whole. */
export const timesSchema = z.strictObject({
  cut: seconds,
  score: seconds,
  'deep-score': seconds,
  engrave: seconds,
  travel: seconds.meta({ description: 'Beam off.' }),
});

const costRow = z.strictObject({
  batch: z.int(),
  boards: z.int(),
  loadings: z.int(),
  material: z.number().meta({ description: 'Boards and offcuts; this and what follows for one sign.' }),
  paintAndGlue: z.number(),
  extras: z.number().meta({ description: 'Extras and packing.' }),
  machine: z.number(),
  labour: z.number(),
  overhead: z.number(),
  costPerSign: z.number(),
  fees: z.number(),
  pricePerSign: z.number(),
  profit: z.number(),
  margin: z.number().meta({ description: 'Profit / price.' }),
  machineMinutes: z.number(),
  handMinutes: z.number(),
  hand: z.strictObject({
    sign: z.number(),
    pieces: z.number(),
    layers: z.number(),
    colours: z.number(),
    loading: z.number(),
    batch: z.number(),
  }),
  leftForHandHour: z.number().nullable().meta({
    description: 'What is left of the price for an hour of hand work once everything else is paid.',
  }),
});

export const costSchema = z.strictObject({
  currency: z.string(),
  machineSeconds: z.number(),
  times: timesSchema,
  travelLengthMm: z.number(),
  rows: z.array(costRow),
  formula: z.string(),
});

export const paintPlanSchema = z.strictObject({
  colours: z.array(
    z.strictObject({
      design: z.string().meta({ description: 'Design it is for; empty in a job of one artwork.' }),
      colour: z.string().nullable().meta({ description: 'null = left bare.' }),
      tin: z.string().nullable().meta({ description: 'What stands on the tin; null = the shop names none.' }),
      parts: z.array(z.string()),
      coats: z.number(),
      facesMm2: z.number().meta({ description: 'One coat, one sign.' }),
      edgesMm2: z.number(),
      backsMm2: z.number(),
      bareMm2: z.number().meta({ description: 'Hidden faces: not painted.' }),
      millilitres: z.number().meta({ description: 'All coats with what is lost, one sign.' }),
      money: z.number(),
    }),
  ),
  bare: z
    .array(z.strictObject({ part: z.string(), areaMm2: z.number(), outline: z.string(), files: z.array(z.string()) }))
    .meta({
      description:
        'Glued faces of painted parts: masked before painting. SVG path data, assembled frame; files of the masks.',
    }),
  paintedOver: z
    .array(z.strictObject({ part: z.string(), mark: z.string(), lengthMm: z.number() }))
    .meta({ description: 'Burnt marks that paint would hide.' }),
  millilitres: z.number().meta({ description: 'One sign of every design.' }),
  money: z.number(),
});
