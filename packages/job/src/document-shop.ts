import { z } from 'zod';
import { choice, colour, length, number } from './document-fields.ts';

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
  densityKgM3: number(50, 3000, 'Density of the stock, kg/m3.').default(750),
});
