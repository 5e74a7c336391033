import { z } from 'zod';
import { COMPENSATE, PASS_THROUGH } from './choices.ts';
import { costSchema, paintPlanSchema, timesSchema } from './report-cost-schema.ts';

const mm = z.number();
const share = z.number().min(0).max(1);
const point = z.strictObject({ x: mm, y: mm });
const size = z.strictObject({ width: mm, height: mm });

const placement = z.strictObject({
  id: z.string().meta({ description: 'Piece and sign: "backer.a#2". The data-piece of the sheet.' }),
  piece: z.string(),
  part: z.string(),
  number: z.string().meta({ description: 'Short number in pictures and on hidden faces.' }),
  design: z.string().meta({ description: 'Design it belongs to; empty in a job of one artwork.' }),
  order: z.string(),
  sign: z.int().min(1).meta({ description: 'Which sign of its design it belongs to, from 1.' }),
  shape: z.string().meta({ description: 'Key of its outline as drawn, for finished sheets.' }),
  x: mm.meta({ description: 'Sheet frame: origin upper left, y down.' }),
  y: mm,
  turnDeg: z
    .number()
    .meta({ description: 'About the origin of the assembled frame, from +x towards +y, before the move by x, y.' }),
  mirrored: z.boolean().meta({ description: 'x -> -x before the turn.' }),
});

const sheet = z.strictObject({
  id: z.string().meta({ description: 'By what lies on it: the same sheet has the same id in every plan.' }),
  number: z.int().min(1).meta({ description: 'In its stock, as in its file names.' }),
  material: z.string().meta({ description: 'Id of the stock; empty in a job without a list of stocks.' }),
  file: z.string().nullable().meta({ description: 'Name of the SVG; null when nothing was written.' }),
  files: z.array(z.string()).meta({ description: 'All files of this sheet.' }),
  stock: z.string().meta({ description: 'Board or offcut.' }),
  width: mm.meta({ description: 'Board width, mm.' }),
  height: mm.meta({ description: 'Board height, mm.' }),
  yield: share,
  placements: z.array(placement),
  sameAs: z
    .int()
    .nullable()
    .meta({ description: 'Number of the first sheet that is cut from the same files; null for that one.' }),
  loadings: z.int().min(1).meta({ description: 'How often this board is set up: one file each.' }),
  offcut: z
    .strictObject({ areaMm2: z.number(), outline: z.string() })
    .nullable()
    .meta({ description: 'Largest reusable rest, SVG path data in the sheet frame.' }),
  rests: z
    .array(
      z.strictObject({
        id: z.string().meta({ description: 'Label: burnt on it where the job says so.' }),
        outline: z.string(),
        areaMm2: z.number(),
        rectangle: z.strictObject({ x: mm, y: mm, width: mm, height: mm }),
      }),
    )
    .meta({ description: 'All rests that can be used again, in their true outlines, largest rectangle first.' }),
  cutLengthMm: mm,
  markLengthMm: mm,
  seconds: z.number().meta({ description: 'Estimated machine time.' }),
  times: timesSchema,
  travelLengthMm: mm,
});

const loading = z.strictObject({
  files: z.array(z.string()).meta({ description: 'One a format; empty when nothing was written.' }),
  times: z.int().min(1).meta({ description: 'How often these files are cut: once for each of `sheets`.' }),
  sheets: z.array(z.int()).meta({ description: 'Numbers of the boards it is cut on, from 1.' }),
  kind: z.enum(['whole', 'moved', 'panels']).meta({
    description:
      'whole: the board lies on the bed. moved: the board is moved between loadings. panels: sawn out first.',
  }),
  number: z.int().min(1).meta({ description: 'Order among the loadings of one board.' }),
  count: z.int().min(1),
  x: mm.meta({ description: 'Corner of what the file shows, in the board frame.' }),
  y: mm,
  width: mm,
  height: mm,
  isTurned: z.boolean().meta({ description: 'The file is turned by a quarter, clockwise, to lie within the bed.' }),
  pieces: z.array(z.string()).meta({ description: 'Placements cut in it, as named on the first of `sheets`.' }),
  board: z
    .strictObject({ minX: mm, minY: mm, maxX: mm, maxY: mm })
    .meta({ description: "Where the board's edges lie in the file's frame." }),
  move: z
    .strictObject({ dx: mm, dy: mm })
    .nullable()
    .meta({ description: 'How the board moves from the loading before, in the frame of the file: x right, y down.' }),
  words: z.array(z.string()).meta({ description: 'How the material is set, in sentences.' }),
});

const seam = z.strictObject({
  id: z.string(),
  label: z.string().meta({ description: 'Doubled letters burnt on both sides, unique in the sign.' }),
  part: z.string(),
  pieces: z.array(z.string()).meta({ description: 'The two pieces that mate along it.' }),
  numbers: z.array(z.string()).meta({ description: 'Their numbers.' }),
  lengthMm: mm,
  hiddenLengthMm: mm,
  alongLinesMm: mm.meta({ description: 'What shows but runs along a drawn line, and so shows nothing new.' }),
  hiddenShare: share.meta({ description: 'Something lies above it.' }),
  heldLengthMm: mm,
  heldShare: share.meta({
    description: 'A part that is glued to the face of both sides, or a rear plate, spans it with the landing.',
  }),
  heldByPlateMm: mm.meta({ description: 'What of heldLengthMm rear plates alone hold.' }),
  knobs: z.int().min(0),
  neckMm: mm.meta({ description: 'Least neck of its knobs; 0 without knobs.' }),
  path: z.string().meta({ description: 'The cut line, SVG path data in the assembled frame, before kerf.' }),
  visible: z.array(z.tuple([mm, mm])).meta({ description: 'Stretches that show, from and to along the path.' }),
  held: z.array(z.tuple([mm, mm])).meta({ description: 'Stretches that are held, from and to along the path.' }),
});

const piece = z.strictObject({
  id: z.string(),
  number: z.string().meta({ description: 'Burnt on it, in pictures and in the files.' }),
  part: z.string(),
  outline: z.string().meta({ description: 'SVG path data in mm, assembled frame, before kerf.' }),
  holes: z.array(z.string()),
  areaMm2: z.number(),
  fitsBedTurnDeg: z.number(),
});

const plan = z.strictObject({
  id: z.string(),
  chosen: z.boolean(),
  merits: z.array(z.string()),
  pieces: z.int(),
  seamLengthMm: mm,
  visibleLengthMm: mm,
  hiddenShare: share,
  heldShare: share.meta({ description: 'By what is glued on it; by its rear plates too when they are cut.' }),
  plates: z.int().meta({ description: 'Rear plates that could be cut for it.' }),
  knobs: z.int(),
  leastNeckMm: mm,
  balance: z.number(),
  remarks: z.array(z.string()),
});

const splitPart = z.strictObject({
  part: z.string(),
  pieces: z.int().meta({ description: 'Number found.' }),
  piecesLowerBound: z.int(),
  provenFewest: z.boolean(),
  statement: z.string().meta({ description: '"Proven fewest" or "best found, not proven".' }),
  plans: z.array(plan),
});

const part = z.strictObject({
  id: z.string(),
  design: z.string(),
  name: z.string(),
  layer: z.string().nullable(),
  paint: z.string().nullable(),
  stock: z.string(),
  areaMm2: z.number(),
  widthMm: mm,
  heightMm: mm,
  numbers: z.array(z.string()).meta({ description: 'Of its pieces; empty when it cannot be made to fit.' }),
  like: z
    .string()
    .nullable()
    .meta({ description: 'Number of an earlier part of the very same shape, which it may change places with.' }),
  pieces: z.int(),
  outline: z.string(),
  holes: z.array(z.string()),
});

const violation = z.strictObject({
  kind: z.string(),
  pieces: z.array(z.string()),
  sheet: z.int(),
  x: mm,
  y: mm,
  amountMm: mm,
  message: z.string(),
});

const check = z.strictObject({
  ok: z.boolean(),
  smallestGapMm: mm
    .nullable()
    .meta({ description: 'Least distance between two cut paths; null when no sheet has two.' }),
  smallestMarginMm: mm.nullable(),
  violations: z.array(violation),
  splitsProven: z.boolean(),
  piecesExpected: z.int(),
  piecesPlaced: z.int(),
});

const notFitting = z.strictObject({
  part: z.string(),
  piece: z.string().nullable(),
  code: z.string(),
  message: z.string(),
});

const paint = z.strictObject({
  design: z.string(),
  colour: z.string().nullable().meta({ description: 'null = left bare.' }),
  parts: z.array(z.string()),
  faceAreaMm2: z.number(),
  visibleAreaMm2: z.number().meta({ description: 'To be painted, for one sign.' }),
  bareAreaMm2: z.number().meta({ description: 'Below other parts: left bare so that glue holds.' }),
});

const buildStep = z.strictObject({
  step: z
    .int()
    .nullable()
    .meta({ description: 'Number of its step in the build guide; null = its place is not known.' }),
  part: z.string(),
  name: z.string(),
  onto: z.array(z.string()).meta({ description: 'Parts that it is glued to.' }),
  glueAreaMm2: z.number(),
});

const artwork = z.strictObject({
  name: z.string(),
  widthMm: mm,
  heightMm: mm,
  parts: z.int(),
  sizeSource: z.enum(['file', 'user']),
  mode: z.enum(['stacked', 'spread']),
});

const design = z.strictObject({
  id: z.string(),
  order: z.string(),
  count: z.int().min(1).meta({ description: 'Signs of it.' }),
  mark: z.string().meta({ description: 'Stands before its piece numbers.' }),
  artwork,
});

const order = z.strictObject({
  order: z.string(),
  signs: z.int(),
  designs: z.array(z.strictObject({ id: z.string(), count: z.int() })),
  sheets: z.array(z.string()).meta({ description: 'Ids of the sheets that hold its pieces.' }),
  pieces: z.int().meta({ description: 'Still to be cut.' }),
  areaMm2: z.number(),
  kit: z
    .array(z.strictObject({ piece: z.string(), number: z.string(), count: z.int(), sheets: z.array(z.string()) }))
    .meta({ description: 'What to gather from which sheets.' }),
  cost: z.number().meta({ description: 'Boards and machine time by the area of its pieces, the rest by its signs.' }),
  price: z.number(),
});

const stock = z.strictObject({
  id: z.string(),
  material: z.string(),
  thickness: mm.meta({ description: 'As measured, else nominal.' }),
  kerf: mm,
  fit: mm,
  boards: z.int(),
  boardsLowerBound: z.int(),
  isProvedMinimal: z.boolean(),
  yield: share,
  price: z.number(),
});

const finished = z.strictObject({
  id: z.string(),
  stock: z.string(),
  board: z.string(),
  number: z.int(),
  pieces: z.array(z.strictObject({ piece: z.string(), sign: z.int() })),
});

const repair = z.strictObject({
  kind: z.string(),
  message: z.string(),
  place: z.string(),
  at: point.nullable(),
  sizeMm: mm,
});

const complaint = z.strictObject({
  code: z.string(),
  severity: z.enum(['error', 'warning', 'note']),
  message: z.string(),
  place: z.string(),
  at: point.nullable(),
});

const hanging = z.strictObject({
  design: z.string(),
  massKg: z.number().meta({ description: 'Of one finished sign, without glue and paint.' }),
  centre: point.meta({ description: 'Centre of mass, in the sign, mm.' }),
  points: z.array(z.strictObject({ at: point, bearing: point, by: z.enum(['slot', 'drawn']) })),
  leanDeg: z.number().nullable().meta({ description: 'Clockwise; null = it does not hang.' }),
  isStraight: z.boolean(),
  loads: z.array(z.number()).nullable().meta({ description: 'Share of the weight on each of `points`.' }),
  belong: z.array(point).meta({ description: 'Where slots belong so that it hangs straight.' }),
  seamMm: mm.nullable().meta({ description: 'Least distance from an added slot to a seam.' }),
  words: z.array(z.string()),
});

/** report.json, the whole of it. */
export const reportSchema = z
  .strictObject({
    version: z.literal(1),
    units: z.literal('mm'),
    job: z.string(),
    artwork: artwork.meta({ description: 'Of the first design.' }),
    designs: z.array(design),
    orders: z.array(order).meta({ description: 'The same job told by order.' }),
    stocks: z.array(stock),
    bed: size.extend({ margin: mm, passThrough: z.enum(PASS_THROUGH) }),
    thickness: mm,
    kerf: mm,
    fit: mm,
    compensate: z.enum(COMPENSATE),
    spacing: mm,
    margin: mm,
    batch: z.int().min(1).meta({ description: 'Signs in all.' }),
    boards: z.int().min(0).meta({ description: 'Number of boards and offcuts used.' }),
    boardsLowerBound: z.int().min(0),
    boardsLowerBoundBy: z.string(),
    isProvedMinimal: z.boolean(),
    yield: share,
    waste: share,
    sheets: z.array(sheet),
    loadings: z.array(loading).meta({ description: 'What is cut, file by file, in order.' }),
    finished: z.array(finished).meta({ description: 'Sheets that were cut before; they are not among `sheets`.' }),
    parts: z.array(part),
    seams: z.array(seam),
    pieces: z.array(piece).meta({ description: 'Pieces of split parts.' }),
    splits: z.array(splitPart),
    check,
    notFitting: z.array(notFitting),
    paint: z.array(paint),
    buildOrder: z.array(buildStep).meta({ description: 'Parts in the order in which the build guide lays them.' }),
    cost: costSchema,
    paintPlan: paintPlanSchema,
    hanging: z.array(hanging).meta({ description: 'One entry a design.' }),
    complaints: z.array(complaint),
    repairs: z.array(repair),
    messages: z.array(z.string()).meta({ description: 'What a maker should know, in sentences.' }),
    cautions: z.array(z.string()),
    seed: z.int(),
    effort: z.union([z.string(), z.int()]),
    endedBy: z.string(),
    seconds: z.number().min(0).meta({ description: 'Time taken to plan.' }),
  })
  .meta({
    id: 'UnderlapReport',
    title: 'Underlap report',
    description: 'What became of a job. Lengths in mm, areas in mm2.',
  });

export type Report = z.output<typeof reportSchema>;
export type ReportLoading = Report['loadings'][number];
export type ReportSheet = Report['sheets'][number];
export type ReportSeam = Report['seams'][number];
