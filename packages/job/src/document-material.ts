import { z } from 'zod';
import { LOADING_WAYS, PASS_THROUGH } from './choices.ts';
import { choice, count, LONGEST_MM, length, number, SHORTEST_SIDE_MM, sizeText } from './document-fields.ts';
import { parseSize } from './units.ts';

const side = (what: string) => length(SHORTEST_SIDE_MM, LONGEST_MM, what);
const bedObject = z.strictObject({
  width: side('Width of the working area'),
  height: side('Height of the working area'),
  margin: length(0, 100, 'Edge of the bed that is not used').default(0),
  passThrough: choice(PASS_THROUGH, 'Direction in which material may pass through the machine.').default('none'),
  passLength: length(SHORTEST_SIDE_MM, LONGEST_MM, 'Longest material that passes through; null = any')
    .nullable()
    .default(null),
});
/** The machine's bed. */
export const bedSchema = z
  .union([sizeText('Bed as text, "520x320" or "20x12in".'), bedObject], { error: () => SIZE_OR_OBJECT })
  .transform((value, context) => fromText(value, bedObject, context));

const boardObject = z.strictObject({
  id: z.string().min(1).nullable().default(null).meta({ description: 'Name of the board; default: its size.' }),
  width: side('Width of the board'),
  height: side('Height of the board'),
  count: count(0, 100_000, 'How many there are; null = as many as needed.').nullable().default(null),
  price: number(0, 1e6, 'Price of one board, in the currency of `costs`.').default(0),
  grain: z.boolean().default(false).meta({ description: 'Has a grain along its width.' }),
  forbidden: z
    .array(
      z.strictObject({ x: z.number(), y: z.number(), width: z.number().positive(), height: z.number().positive() }),
    )
    .default([])
    .meta({ description: 'Knots, clamps: nothing lies there. mm from the upper left corner.' }),
});
/** Boards of one kind. */
export const boardSchema = z
  .union([sizeText('Board as text, "508x305" or "20x12in".'), boardObject], { error: () => SIZE_OR_OBJECT })
  .transform((value, context) => fromText(value, boardObject, context));

/** A rest of a board, by its outline. */
export const offcutSchema = z.strictObject({
  id: z.string().min(1).meta({ description: 'Name of the offcut.' }),
  outline: z.string().min(1).meta({
    description: 'SVG path data in mm, y down; further subpaths are holes. Any origin: it is moved to 0, 0.',
  }),
  count: count(0, 1000, 'How many of this outline there are.').default(1),
  grain: z.boolean().default(false),
});

/** How boards larger than the bed get under the beam. */
export const loadingSchema = z.strictObject({
  way: choice(
    LOADING_WAYS,
    'Boards larger than the bed: move-board = one file a loading, the board is moved between them; cut-down = the board is sawn into panels first, one file a panel.',
  ).default('move-board'),
  sawKerf: length(0, 10, 'Width that the saw removes between panels').default(3),
});

const SIZE_OR_OBJECT = 'must be a size such as "508x305" or "20x12in", or { "width": 508, "height": 305 }';

/** "508x305" stands for an object that has only these sides; its limits are those of the object. */
function fromText<S extends z.ZodType>(value: unknown, object: S, context: z.RefinementCtx): z.output<S> {
  if (typeof value !== 'string') return value as z.output<S>;
  const parsed = object.safeParse(parseSize(value));
  if (parsed.success) return parsed.data;
  for (const issue of parsed.error.issues) {
    context.addIssue({ code: 'custom', path: issue.path, message: issue.message });
  }
  return z.NEVER;
}
