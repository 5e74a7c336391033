import { z } from 'zod';
import { choice, colour, count, length, number } from './document-fields.ts';

const paint = z.strictObject({
  name: z.string().min(1).max(80).meta({ description: 'What stands on the tin.' }),
  colours: z.array(colour).min(1).meta({ description: 'Colours of the drawing that are painted with it.' }),
  coats: number(1, 10, 'Coats on a face.').default(2),
  squareMetresPerLitre: number(0.5, 50, 'What one litre covers once, m2.').default(10),
  pricePerLitre: number(0, 1e5, 'Price of one litre, in the currency of `costs`.').default(0),
});

/** Paint, glue and wood of the shop. The figures are the shop's own; the defaults are common practice, no source. */
export const shopSchema = z.strictObject({
  paints: z.array(paint).default([]).meta({ description: 'The tins on the shelf, and which colours they are for.' }),
  coats: number(1, 10, 'Coats where no tin says otherwise.').default(2),
  squareMetresPerLitre: number(0.5, 50, 'Coverage where no tin says otherwise, m2 a litre.').default(10),
  paintLoss: number(0, 5, 'Paint left in brush, roller and tin, as a share of what is on the wood.').default(0.15),
  paintEdges: z.boolean().default(true).meta({ description: 'Are edges painted with the colour of their part?' }),
  paintBacks: z.boolean().default(false).meta({ description: 'Are backs painted that nothing hides?' }),
  painted: choice(['before', 'after'], 'Are parts painted before they are glued, or the sign after?').default('before'),
  bareInset: length(0, 20, 'How far bare faces stay inside the part that hides them').default(1),
  glue: z
    .strictObject({
      name: z.string().min(1).max(80).default('wood glue'),
      mlPerSquareMetre: number(1, 2000, 'How much is spread, ml a square metre.').default(150),
      pricePerLitre: number(0, 1e5, 'Price of one litre.').default(0),
      opensSeconds: number(1, 7200, 'Seconds until it no longer lets parts be moved.').default(300),
    })
    .prefault({}),
  restSide: length(10, 1000, 'A rest of a board is kept when a rectangle of at least this side goes in').default(60),
  densityKgM3: number(
    50,
    3000,
    'Density of the stock, kg/m3: fibreboard 700 to 800, birch plywood about 680, limewood about 410.',
  ).default(750),
  hanging: z
    .strictObject({
      slots: count(
        0,
        2,
        'Slots cut into the lowest part, above the centre of mass: two evenly beside it, or one.',
      ).default(0),
      kind: choice(
        ['slot', 'keyhole'],
        'slot: lying, with round ends. keyhole: a hole for the head of a screw with a slit above it.',
      ).default('slot'),
      width: length(1, 200, 'Length of a slot, or width of the hole for the head').default(20),
      height: length(0.5, 100, 'Height of a slot, or width of the slit').default(6),
      clear: length(0, 100, 'Wood around a slot, to edges, seams and what lies on the part').default(8),
      at: z
        .array(z.strictObject({ x: z.number(), y: z.number() }))
        .default([])
        .meta({ description: 'Middles of slots of your own, mm in the sign, instead of the places found.' }),
    })
    .prefault({})
    .meta({ description: 'What the sign hangs from.' }),
});
