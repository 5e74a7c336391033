import type { ColourKey } from '@underlap/artwork/colour-key';
import type { Colour, Complaint, Drawing, DrawnShape, Process } from '@underlap/artwork/drawing';
import { contourBounds } from '@underlap/geometry/contour';
import type { Draft } from './draft.ts';
import { StackError } from './error.ts';
import { giveMarks } from './marks.ts';
import { decideMode, type ModeDecision } from './mode.ts';
import { firstPoint } from './outline.ts';
import { IdMint } from './part-ids.ts';
import { partNames } from './part-names.ts';
import type { Mark, Part, Sign } from './sign.ts';
import { partsFromSpread } from './spread.ts';
import { partsFromStack } from './stacked.ts';
import { usageOf } from './usage.ts';

/** What the user may say about the way a drawing is read into a sign. */
export interface RecogniseOptions {
  /** 'auto' decides from the drawing; the decision is told as a note. */
  readonly mode: 'auto' | 'stacked' | 'spread';
  /** What the user said of colours. */
  readonly colours: ColourKey;
  /** What the geometry suggests for stroke colours nobody spoke of. */
  readonly proposals: Readonly<Record<Colour, Process>>;
  /** May outlines that cross themselves be resolved? Default true. */
  readonly repair?: boolean;
}

/**
 * Turn a drawing into a sign: parts bottom first with holes, paint and marks.
 * @returns the sign; in a spread drawing every part is still where it was drawn (see `rebuildStack`).
 * @throws StackError `no-closed-shape` when nothing bounds a part.
 * @remarks Ids come from names and running order, so they are the same from run to run.
 */
export function recogniseParts(drawing: Drawing, options: RecogniseOptions): Sign {
  const usage = (shape: DrawnShape) => usageOf(shape, options.colours, options.proposals);
  const shapes = drawing.shapes.filter((shape) => usage(shape).process !== 'ignore');
  const decided: ModeDecision =
    options.mode === 'auto'
      ? decideMode(shapes.filter((shape) => usage(shape).process === 'cut'))
      : { mode: options.mode, reason: 'chosen by the user' };
  const partsFrom = decided.mode === 'stacked' ? partsFromStack : partsFromSpread;
  const draft = partsFrom(shapes, usage, options.repair ?? true);
  if (draft.parts.length === 0) throw noPart(drawing, draft);
  const { given, complaints } = giveMarks(draft.marks, draft.parts);

  const names = partNames(draft.parts.map((part) => part.source));
  const ids = new IdMint();
  const markIds = new IdMint();
  const place = decided.mode === 'stacked' ? 'assembled' : 'drawn';
  const parts = draft.parts.map((part, index): Part => {
    const { source } = part;
    const name = names[index]!;
    const id = ids.mint(name ?? source.id, 'part');
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
      name: name ?? id,
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
    repairs: [...drawing.repairs, ...draft.repairs],
    complaints: [...drawing.complaints, modeNote(drawing, decided), ...draft.complaints, ...complaints],
  };
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
  const first = draft.complaints.find((complaint) => complaint.severity !== 'note');
  const why = first === undefined ? '' : ` (${first.message})`;
  return new StackError(
    'no-closed-shape',
    `${drawing.name} has no closed shape that could be cut as a part${why}: close the outlines of the parts and try again`,
    first?.place ?? null,
  );
}
