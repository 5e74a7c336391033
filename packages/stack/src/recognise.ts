import type { Complaint, Drawing, DrawnShape } from '@underlap/artwork/drawing';
import { contourBounds } from '@underlap/geometry/contour';
import { backgroundComplaint, backgroundOf } from './background.ts';
import { type Draft, processOf, type Usage } from './draft.ts';
import { StackError } from './error.ts';
import { mergeLinesOverFills } from './lines-on-fills.ts';
import { giveMarks } from './marks.ts';
import { isCut, type Meaning, meaningsOf, type ProcessKey, spokenMeaning } from './meaning.ts';
import { decideMode, type ModeDecision } from './mode.ts';
import { firstPoint } from './outline.ts';
import { IdMint, mintPartIds } from './part-ids.ts';
import { partNames } from './part-names.ts';
import type { Mark, Part, Sign } from './sign.ts';
import { partsFromSpread } from './spread.ts';
import { partsFromStack } from './stacked.ts';
import { twinQuestions } from './twin-questions.ts';
import { usesOf } from './usage.ts';

/** What the user may say about the way a drawing is read into a sign. */
export interface RecogniseOptions {
  /** 'auto' decides from the drawing; the decision is told as a note. */
  readonly mode: 'auto' | 'stacked' | 'spread';
  /** What the user said of colours and layers. */
  readonly key?: ProcessKey;
  /** May outlines that cross themselves be resolved? Default true. */
  readonly repair?: boolean;
  /** Is a white page below the drawing a part? Default false. */
  readonly keepBackground?: boolean;
}

const NO_KEY: ProcessKey = { colours: {}, layers: {} };
const NOTHING_TOLD: Meaning = { process: 'cut', toldBy: 'geometry', reason: 'it runs along the edge of filled shapes' };
const PAGE: Meaning = { process: 'ignore', toldBy: 'geometry', reason: 'it is the page' };

/**
 * Turn a drawing into a sign: parts bottom first with holes, paint and marks, and what its colours and layers were taken for.
 * @returns the sign; in a spread drawing every part is still where it was drawn (see `rebuildStack`).
 * @throws StackError `no-closed-shape` when nothing bounds a part.
 * @remarks Ids come from names and running order, so they are the same from run to run.
 */
export function recogniseParts(drawing: Drawing, options: RecogniseOptions): Sign {
  const { shapes, meaningOf, complaints: told } = shapesMeant(drawing, options);
  const usage: Usage = (shape) => processOf(meaningOf(shape));
  const cut = shapes.filter((shape) => usage(shape) === 'cut');
  const decided: ModeDecision =
    options.mode === 'auto' ? decideMode(cut) : { mode: options.mode, reason: 'chosen by the user' };
  const partsFrom = decided.mode === 'stacked' ? partsFromStack : partsFromSpread;
  const draft = partsFrom(shapes, usage, options.repair ?? true);
  if (draft.parts.length === 0) throw noPart(drawing, draft);
  const { given, complaints } = giveMarks(draft.marks, draft.parts);

  const names = partNames(draft.parts.map((part) => part.source));
  const ids = mintPartIds(
    draft.parts.map((part, index) => names[index] ?? part.source.id),
    'part',
  );
  const markIds = new IdMint();
  const place = decided.mode === 'stacked' ? 'assembled' : 'drawn';
  const parts = draft.parts.map((part, index): Part => {
    const { source } = part;
    const id = ids[index]!;
    const marks = given
      .filter((entry) => entry.part === index)
      .map(
        ({ mark, lengthMm }): Mark => ({
          id: markIds.mint(mark.source.name ?? mark.source.id, 'mark'),
          partId: id,
          process: mark.process,
          contours: mark.contours,
          lengthMm,
        }),
      );
    return {
      id,
      name: names[index] ?? id,
      layer: source.layer,
      shape: part.shape,
      region: part.region,
      paint: source.fill,
      marks,
      place,
      drawnAt: { element: source.place.element, at: firstPoint(source) },
    };
  });
  return {
    name: drawing.name,
    mode: decided.mode,
    ...extentOf(parts),
    parts,
    matches: [],
    uses: usesOf(drawing.shapes, meaningOf),
    repairs: [...drawing.repairs, ...draft.repairs],
    complaints: [
      ...drawing.complaints,
      modeNote(drawing, decided),
      ...told,
      ...draft.complaints,
      ...twinQuestions(cut, decided.mode),
      ...complaints,
    ],
  };
}

interface ShapesMeant {
  /** Without the page, and without lines that only double the edge of a fill. */
  readonly shapes: readonly DrawnShape[];
  readonly meaningOf: (shape: DrawnShape) => Meaning;
  readonly complaints: readonly Complaint[];
}

function shapesMeant(drawing: Drawing, options: RecogniseOptions): ShapesMeant {
  const key = options.key ?? NO_KEY;
  const spoken = new Map(drawing.shapes.map((shape) => [shape, spokenMeaning(shape, key)]));
  const silent = drawing.shapes.filter((shape) => spoken.get(shape) === null);
  // A page that something was said of is no page.
  const lowest = drawing.shapes.find((shape) => spoken.get(shape) !== 'ignore');
  const page =
    options.keepBackground === true || lowest !== silent[0] ? null : backgroundOf(drawing, withoutIgnored(spoken));
  const mayCut = (shape: DrawnShape): boolean => shape !== page && isCut(spoken.get(shape) ?? 'cut');
  const merged = mergeLinesOverFills(drawing.shapes.filter(mayCut));
  const kept = new Map(merged.shapes.map((shape) => [shape.id, shape]));
  const shapes = drawing.shapes.flatMap((shape) => (mayCut(shape) ? (kept.get(shape.id) ?? []) : [shape]));
  const meanings = meaningsOf({ shapes: shapes.filter((shape) => shape !== page) }, key, options.mode !== 'stacked');
  return {
    shapes,
    meaningOf: (shape) => (shape === page ? PAGE : (meanings.of.get(shape) ?? NOTHING_TOLD)),
    complaints: [...(page === null ? [] : [backgroundComplaint(page)]), ...merged.complaints, ...meanings.complaints],
  };
}

function withoutIgnored(spoken: ReadonlyMap<DrawnShape, Meaning['process'] | null>): DrawnShape[] {
  return [...spoken].filter(([, process]) => process !== 'ignore').map(([shape]) => shape);
}

/** Width and height over all parts, mm. */
export function extentOf(parts: readonly Part[]): { widthMm: number; heightMm: number } {
  const boxes = parts.map((part) => contourBounds(part.shape.outer));
  return {
    widthMm: Math.max(...boxes.map((box) => box.maxX)) - Math.min(...boxes.map((box) => box.minX)),
    heightMm: Math.max(...boxes.map((box) => box.maxY)) - Math.min(...boxes.map((box) => box.minY)),
  };
}

function modeNote(drawing: Drawing, decided: ModeDecision): Complaint {
  const words = decided.mode === 'stacked' ? 'a stacked drawing' : 'a drawing with the parts spread out';
  return {
    code: 'mode',
    severity: 'note',
    message: `${drawing.name} is read as ${words}: ${decided.reason}`,
    place: { element: drawing.name, at: null },
  };
}

function noPart(drawing: Drawing, draft: Draft): StackError {
  const told = [...draft.complaints, ...drawing.complaints].find(({ severity }) => severity !== 'note');
  const open = drawing.shapes.find((shape) => shape.contours.some((contour) => !contour.closed));
  const first =
    told ?? (open === undefined ? undefined : { message: `${open.place.element} is an open line`, place: open.place });
  const why = first === undefined ? '' : ` (${first.message})`;
  return new StackError(
    'no-closed-shape',
    `${drawing.name} has no closed shape that could be cut as a part${why}: close the outlines of the parts and try again`,
    first?.place ?? null,
  );
}
