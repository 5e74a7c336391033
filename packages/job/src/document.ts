import { KNOB_WISHES } from '@underlap/seam/knob-kinds';
import { LARGEST_KERF_MM } from '@underlap/seam/sizes';
import { z } from 'zod';
import {
  AIMS,
  COMPENSATE,
  FIT_RANGE_MM,
  FORMATS,
  MASKS,
  MOST_MARGIN_MM,
  MOST_SIGNS,
  MOST_SPACING_MM,
  NUMBERS,
  PREFERENCES,
  TIE_BREAKS,
  TOGETHER,
} from './choices.ts';
import { artworkSchema } from './document-artwork.ts';
import { bridgesSchema } from './document-bridges.ts';
import { costsSchema, speedsSchema } from './document-costs.ts';
import { atMost, choice, colour, count, length, number, partId, shown } from './document-fields.ts';
import { designLetteringSchema, letteringSchema } from './document-lettering.ts';
import { bedSchema, boardSchema, loadingSchema, offcutSchema } from './document-material.ts';
import { shopSchema } from './document-shop.ts';

/** Version of the job document; a higher one is refused with a sentence, lower ones are raised by `migrate.ts`. */
export const JOB_VERSION = 2;

/** Longer lists are no day's work; finished sheets may add up for longer. */
export const MOST_DESIGNS = 500;
const MOST_STOCKS = 100;
const MOST_DONE = 10_000;

const turnRule = z
  .union([z.enum(['fixed', 'half', 'quarter', 'any']), z.strictObject({ stepDeg: z.number().positive().max(180) })], {
    error: () => 'must be fixed, half, quarter, any, or { "stepDeg": 15 }',
  })
  .meta({ description: 'Which turns a piece may take on a board.' });

const seamWish = z.strictObject({
  prefer: choice(PREFERENCES, 'Which plan is taken.').default('fewest'),
  plan: z
    .string()
    .nullable()
    .default(null)
    .meta({ description: 'Id of the plan to take, from an earlier report; null = best by `prefer`.' }),
  morePieces: count(
    0,
    8,
    'Pieces beyond the fewest; a part named in `parts` is cut for them also where it fits.',
  ).default(0),
  pins: z
    .array(z.strictObject({ x: z.number(), y: z.number() }))
    .default([])
    .meta({ description: 'Seams pass within 5 mm of these points where they can.' }),
  forbidden: z
    .array(z.string())
    .default([])
    .meta({ description: 'SVG path data of areas without seams, mm in the assembled sign.' }),
  knob: choice(KNOB_WISHES, 'Shape of the knobs.').default('auto'),
  alongLines: choice(
    ['long', 'all', 'none'],
    'Drawn lines that seams may follow as plank joints: long straight ones, all, or none.',
  ).default('long'),
  plates: z
    .boolean()
    .default(false)
    .meta({ description: 'Add rear splice plates where no glued part holds the seam.' }),
});

const seams = z.strictObject({
  ...seamWish.shape,
  parts: z
    .record(partId, seamWish)
    .default({})
    .meta({ description: 'Wishes for single parts, instead of the general ones.' }),
});

const turns = z.strictObject({
  default: turnRule.default('quarter'),
  parts: z.record(partId, turnRule).default({}),
  mirror: z.array(partId).default([]).meta({ description: 'Parts that may be cut from the back.' }),
  keepGrain: z.array(partId).default([]).meta({ description: 'Parts that keep the grain of the board.' }),
});

const marks = z.strictObject({
  guides: z.boolean().default(true).meta({ description: 'Placement marks on lower parts.' }),
  guideInset: length(0, 20, 'How far a guide lies inside the upper part').default(0.8),
  numbers: choice(NUMBERS, 'Piece numbers: only where another part hides them, everywhere, or none.').default('hidden'),
  wasteNumbers: z
    .boolean()
    .default(true)
    .meta({ description: 'Pieces that cannot carry their number get it in the waste beside them.' }),
  seamLabels: z.boolean().default(true).meta({ description: 'Letters that tell which edges mate.' }),
  textHeight: length(1.5, 50, 'Height of numbers and letters').default(5),
  before: z.string().max(8).default('').meta({ description: 'Stands before the piece numbers.' }),
});

const thickness = length(0.5, 50, 'Thickness of the stock');
const kerf = length(0, LARGEST_KERF_MM, 'Width that a cut removes');
const fit = length(...FIT_RANGE_MM, 'Gap between mating edges after cutting; negative = press fit');

const layerStyle = z
  .strictObject({ colour: colour.optional(), layer: z.string().min(1).max(80).optional() })
  // Left out stays left out: an undefined would hide the default.
  .transform((style): { readonly colour?: string; readonly layer?: string } => ({
    ...(style.colour === undefined ? {} : { colour: style.colour }),
    ...(style.layer === undefined ? {} : { layer: style.layer }),
  }));

const output = z.strictObject({
  formats: z.array(choice(FORMATS, 'File format of the sheets.')).min(1).default(['svg']),
  layers: z
    .partialRecord(
      choice(['engrave', 'score', 'deep-score', 'cut-inner', 'cut-outer', 'numbers'], 'Process.'),
      layerStyle,
    )
    .default({})
    .meta({
      description: 'Colour and layer name of processes in the sheets; others keep a colour-blind-safe default.',
    }),
  rounds: choice(
    ['by-process', 'nested-first'],
    'by-process: every hole of a sheet before every outline; nested-first: pieces that lie in holes of others are finished first.',
  ).default('nested-first'),
  pictures: z.boolean().default(false).meta({ description: 'Also write the finished sign as a picture.' }),
  masks: choice(
    MASKS,
    'Also write what stays bare for glue, a file a piece: lines to be scored through film on it, or masks to be cut.',
  ).default('none'),
  licence: z
    .string()
    .max(2000)
    .default('')
    .meta({ description: 'What a buyer of the files may do with them, for the read-me of packs.' }),
});

const pinned = z.strictObject({
  piece: z.string().min(1).meta({ description: 'Id of the placement, "backer.a#1".' }),
  sheet: count(0, 10_000, 'Sheet it lies on, from 0.'),
  stock: z.string().min(1).meta({ description: 'Board or offcut of that sheet.' }),
  x: z.number(),
  y: z.number(),
  turnDeg: z.number(),
  mirrored: z.boolean().default(false),
});

const together = z
  .union([
    choice(TOGETHER, 'sign = all pieces of one sign share a sheet; order = all of one order.'),
    z.array(z.array(partId)),
  ])
  .meta({
    description: 'Pieces that must share a sheet: none, all of a sign, all of an order, or lists of parts of a sign.',
  });

const landing = length(0, 100, 'How far the cover reaches beyond a seam; null = half the thickness, at least 3 mm');

const stockId = z.string().min(1).max(60).meta({ description: 'Id of a stock of the job.' });

const stockOf = z
  .strictObject({
    rest: stockId
      .nullable()
      .default(null)
      .meta({ description: 'For what is not named below; null = the first stock.' }),
    layers: z.record(z.string(), stockId).default({}).meta({ description: 'By layer of the drawing.' }),
    paints: z.record(colour, stockId).default({}).meta({ description: 'By the colour a part is drawn in.' }),
    parts: z
      .record(partId, stockId)
      .default({})
      .meta({ description: 'By part; counts before paint, and paint before layer.' }),
  })
  .meta({
    description:
      'From which stock parts are cut. A part that nothing is said of comes from a stock of its own colour where there is one.',
  });

/** What one design says for itself; null = as in the job. */
const design = z.strictObject({
  id: z
    .string()
    .regex(/^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,59}$/u, {
      error: (issue) => `is ${shown(issue.input)}, but must begin with a letter or digit, without / and #`,
    })
    .meta({ description: 'Name of the design in the job, unlike every other.' }),
  order: z
    .string()
    .max(120)
    .default('')
    .meta({ description: 'Whose it is: name of the customer or number of the order.' }),
  artwork: artworkSchema,
  count: count(1, MOST_SIGNS, 'How many signs of it are made.').default(1),
  mark: z
    .string()
    .regex(/^[\p{L}\p{N}]{1,4}$/u, {
      error: (issue) => `is ${shown(issue.input)}, but must be 1 to 4 letters or digits`,
    })
    .nullable()
    .default(null)
    .meta({ description: 'Stands before the piece numbers, "3-7a"; null = its place in the list.' }),
  turns: turns.nullable().default(null),
  together: together.nullable().default(null),
  landing: landing.nullable().default(null),
  seams: seams.nullable().default(null),
  marks: marks.nullable().default(null),
  stockOf: stockOf.nullable().default(null),
  lettering: designLetteringSchema.prefault({}),
});

/** One kind of stock; null = as in the job. */
const stock = z.strictObject({
  id: stockId,
  material: z.string().max(120).nullable().default(null),
  thickness: thickness.nullable().default(null),
  measured: thickness
    .nullable()
    .default(null)
    .meta({ description: 'Thickness as measured, mm; counts before the nominal one.' }),
  density: number(50, 3000, 'Density, kg/m3; null = as `shop.densityKgM3`.').nullable().default(null),
  colour: colour
    .nullable()
    .default(null)
    .meta({ description: 'Colour of the board itself: parts drawn in it need no paint.' }),
  kerf: kerf.nullable().default(null),
  fit: fit.nullable().default(null),
  grain: z.boolean().nullable().default(null).meta({ description: 'All its boards have a grain along their width.' }),
  speeds: speedsSchema.nullable().default(null),
  boards: z.array(boardSchema).nullable().default(null),
  offcuts: z.array(offcutSchema).nullable().default(null),
});

const done = z.strictObject({
  sheet: z.string().min(1).meta({ description: 'Id of the sheet, as the report tells it.' }),
  stock: z.string().default('').meta({ description: 'Stock that it was cut from.' }),
  board: z.string().min(1).meta({ description: 'Board or offcut that it took.' }),
  number: count(1, 100_000, 'Number of the sheet in its stock; later sheets are counted on from the highest.'),
  pieces: z
    .array(
      z.strictObject({
        piece: z.string().min(1).meta({ description: 'Id of the piece, "lighthouse/backer.a".' }),
        copy: count(1, 250_000, 'Which sign of its design it is for.'),
        shape: z.string().meta({ description: 'Key of its outline: a design that was changed since is noticed.' }),
        number: z.string().max(80).default('').meta({
          description:
            'Number that it carries: a list that was put in another order since is noticed; empty = not asked.',
        }),
      }),
    )
    .meta({ description: 'What was cut.' }),
});

/** The job document: what a maker saves, what every stage reads. Lengths in mm once parsed. */
export const jobSchema = z
  .strictObject({
    version: z.literal(JOB_VERSION).default(JOB_VERSION),
    name: z
      .string()
      .min(1)
      .max(120)
      .nullable()
      .default(null)
      .meta({ description: 'Name of the job; default: that of the artwork.' }),
    artwork: artworkSchema.prefault({}),
    bed: bedSchema,
    boards: z
      .array(boardSchema)
      .default([])
      .meta({ description: 'Boards to cut from; stocks may have their own, else at least one is needed.' }),
    offcuts: z.array(offcutSchema).default([]),
    loading: loadingSchema.prefault({}),
    material: z.string().max(120).default('').meta({ description: 'Words for the maker; nothing is derived from it.' }),
    thickness: thickness.default(6),
    kerf: kerf.default(0.2),
    fit: fit.default(0),
    compensate: choice(
      COMPENSATE,
      'Which contours are grown by half the kerf: all (parts come out true to size), only seams, none.',
    ).default('all'),
    spacing: length(0, MOST_SPACING_MM, 'Least distance between cut paths').default(2),
    margin: length(0, MOST_MARGIN_MM, 'Least distance from a cut path to the edge of the stock').default(5),
    batch: count(
      1,
      MOST_SIGNS,
      'Signs made together; with a list of designs, how many times the whole list is made.',
    ).default(1),
    designs: z.array(design).max(MOST_DESIGNS, atMost(MOST_DESIGNS)).default([]).meta({
      description:
        'Several designs cut together; then `artwork` stays empty. What a design leaves out is as in the job.',
    }),
    stocks: z.array(stock).max(MOST_STOCKS, atMost(MOST_STOCKS)).default([]).meta({
      description:
        'Several kinds of stock, the first one for all parts that nothing else is said of; what a stock leaves out is as in the job.',
    }),
    stockOf: stockOf.prefault({}),
    done: z
      .array(done)
      .max(MOST_DONE, atMost(MOST_DONE))
      .default([])
      .meta({ description: 'Sheets that are cut already: they stay as they are, and what they hold counts as made.' }),
    lettering: letteringSchema.prefault({}).meta({ description: 'How texts of the drawings become parts.' }),
    bridges: bridgesSchema.prefault({}),
    turns: turns.prefault({}),
    together: together.default('free'),
    landing: landing.nullable().default(null),
    seams: seams.prefault({}),
    marks: marks.prefault({}),
    output: output.prefault({}),
    costs: costsSchema.prefault({}),
    shop: shopSchema.prefault({}),
    aim: choice(
      AIMS,
      'What the layout minimises; fewest-bought = boards that have to be bought, offcuts count as nothing.',
    ).default('fewest-boards'),
    tieBreak: choice(TIE_BREAKS, 'What counts next.').default('largest-offcut'),
    effort: z
      .union([
        choice(['quick', 'normal', 'thorough'], 'How long the search goes on.'),
        count(1, 1e9, 'Units of search work.'),
      ])
      .default('normal'),
    seed: count(0, 2 ** 31 - 1, 'Seed of the search: the same seed gives the same layout.').default(1),
    pinned: z.array(pinned).default([]).meta({ description: 'Placements that stay where they are.' }),
  })
  .meta({
    id: 'UnderlapJob',
    title: 'Underlap job',
    description: 'A layered sign, a bed, and boards to cut it from. Lengths in mm.',
  });

/** A job with every default filled in, mm. */
export type Job = z.output<typeof jobSchema>;
/** A job as a person may write it. @public */
export type JobInput = z.input<typeof jobSchema>;
export type JobBoard = Job['boards'][number];
export type JobBed = Job['bed'];
export type SeamWish = Omit<Job['seams'], 'parts'>;
export type Costs = Job['costs'];
export type JobDesign = Job['designs'][number];
export type JobStock = Job['stocks'][number];
