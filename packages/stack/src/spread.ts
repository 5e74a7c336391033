import type { Complaint, DrawnShape, Repair } from '@underlap/artwork/drawing';
import { orientedContour } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import { plainContour } from '@underlap/geometry/packed-segments';
import { shapesFromContours } from '@underlap/geometry/shapes-from-contours';
import { crossingOutcome } from './crossing-outline.ts';
import { complain, type Draft, type DraftMark, type DraftPart, type Usage } from './draft.ts';
import { type Outline, outlinesOf } from './outline.ts';
import { nestOutlines, type OutlineNode } from './outline-tree.ts';
import { facesOfShape } from './shape-faces.ts';
import { openCutComplaint } from './stacked.ts';

/**
 * Parts of a spread drawing: cut outlines that lie in no other are parts, those directly inside are their holes, those inside
 * a hole are parts again. Everything that is not cut is a mark.
 * @remarks O(n log n + k) in outlines with k pairs of meeting boxes.
 */
export function partsFromSpread(shapes: readonly DrawnShape[], usage: Usage, mayRepair: boolean): Draft {
  const repairs: Repair[] = [];
  const marks: DraftMark[] = [];
  const complaints: Complaint[] = [];
  const cuts: Outline[] = [];
  for (const shape of shapes) {
    const process = usage(shape);
    if (process === 'ignore') continue;
    if (process !== 'cut') {
      marks.push({
        process,
        contours: shape.contours.map(plainContour),
        source: shape,
        after: Number.POSITIVE_INFINITY,
      });
      continue;
    }
    const open = shape.contours.filter((contour) => !contour.closed);
    if (open.length > 0) complaints.push(openCutComplaint(shape, open.length));
    const own = ownOutlines(shape, mayRepair);
    repairs.push(...own.repairs);
    complaints.push(...own.complaints);
    cuts.push(...own.outlines);
  }
  const nodes = nestOutlines(cuts).filter((node) => node.depth % 2 === 0);
  complaints.push(...nodes.flatMap(strangersInside), ...holesNote(nodes));
  const parts = nodes.flatMap((node): DraftPart[] => {
    const contours = [node.outline.contour, ...node.inside.map((inner) => inner.contour)];
    const source = node.outline.shape;
    const faces = facesOf(contours);
    const outcome = crossingOutcome(source, faces.crossings, mayRepair);
    repairs.push(...outcome.repairs);
    complaints.push(...outcome.complaints);
    if (!outcome.isUsable) return [];
    return faces.shapes.map((shape) => ({ shape, region: shapeToRegion(shape, FLATTEN_TOLERANCE_MM), source }));
  });
  if (parts.length === 0 && cuts.length > 0) {
    const shape = cuts[0]!.shape;
    complaints.push(complain('no-part', 'error', `no outline of ${shape.place.element} bounds a part`, shape.place));
  }
  return { parts, marks, repairs, complaints };
}

/**
 * The outlines that a shape's own subpaths come to: where it has several, overlapping ones are united and idle ones left out
 * before anything is nested, by the same rule as in a stacked drawing.
 */
function ownOutlines(shape: DrawnShape, mayRepair: boolean): Omit<Draft, 'parts' | 'marks'> & { outlines: Outline[] } {
  const outlines = outlinesOf(shape);
  if (outlines.length < 2) return { outlines: [...outlines], repairs: [], complaints: [] };
  const found = facesOfShape(shape, outlines);
  const { isUsable, repairs, complaints } = crossingOutcome(shape, found.crossings, mayRepair);
  const contours = isUsable ? found.shapes.flatMap(({ outer, holes }) => [outer, ...holes]) : [];
  return {
    // Contours made anew belong to the shape still.
    outlines: outlinesOf({ ...shape, contours }).map((outline) => ({ ...outline, shape })),
    repairs,
    complaints: [...found.complaints, ...complaints],
  };
}

/** Which outlines of their own became holes: a guide that is read as a hole ruins a board. */
function holesNote(nodes: readonly OutlineNode[]): Complaint[] {
  const holed = nodes
    .map(({ outline: { shape }, inside }) => ({ shape, holes: inside.filter((inner) => inner.shape !== shape).length }))
    .filter(({ holes }) => holes > 0);
  const [first] = holed;
  if (first === undefined) return [];
  const where = holed.slice(0, 6).map(({ shape, holes }) => `${holes} in '${shape.name ?? shape.id}'`);
  const more = holed.length > 6 ? `, and more in ${holed.length - 6} others` : '';
  const message = `outlines inside parts are read as holes and cut out: ${where.join(', ')}${more}`;
  return [complain('holes', 'note', message, first.shape.place)];
}

/** Layers whose names say that they hold holes. */
const HOLES_BY_NAME = /inner|inside|interior|hole|cut/i;

/** Holes drawn on a layer of their own are usual; so are parts that lie on one another, a layer each. The doubt is told. */
function strangersInside({ outline, inside }: OutlineNode): Complaint[] {
  const own = outline.shape.layer;
  const strangers = inside.filter(
    ({ shape: { layer } }) => layer !== null && layer !== own && !HOLES_BY_NAME.test(layer),
  );
  const [first] = strangers;
  if (own === null || first === undefined) return [];
  const { place, layer } = first.shape;
  const lines = strangers.length === 1 ? 'an outline' : `${strangers.length} outlines`;
  const message = `${lines} inside ${outline.shape.place.element} on another layer ('${layer}') read as holes: if they are parts lying on it, read the drawing as stacked (--mode stacked)`;
  return [complain('hole-or-part', 'warning', message, place)];
}

/** Orientation tells holes from outer lines for the fill rule, so it is set here and not taken from the drawing. */
function facesOf(contours: readonly Outline['contour'][]): ReturnType<typeof shapesFromContours> {
  const oriented = contours.map((contour, index) => orientedContour(contour, index === 0 ? 1 : -1));
  return shapesFromContours(oriented, 'nonzero');
}
