import type { Complaint, DrawnShape, Repair } from '@underlap/artwork/drawing';
import { shapeArea } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import { plainContour } from '@underlap/geometry/packed-segments';
import { crossingOutcome } from './crossing-outline.ts';
import { complain, type Draft, type DraftMark, type DraftPart, type Usage } from './draft.ts';
import { outlinesOf, SMALLEST_OUTLINE_MM2 } from './outline.ts';
import { pairHoles } from './pair-holes.ts';
import { facesOfShape } from './shape-faces.ts';

/**
 * Parts of a stacked drawing: every closed shape element that is cut is one part, its subpaths are holes by the fill rule, and
 * document order is bottom to top; in drawings of bare lines holes are told by layer and colour (`pairHoles`). Shapes whose colour stands for a mark belong to the part below them.
 * @remarks O(n log n) in the vertices of each element.
 */
export function partsFromStack(shapes: readonly DrawnShape[], usage: Usage, mayRepair: boolean): Draft {
  const repairs: Repair[] = [];
  const parts: DraftPart[] = [];
  const marks: DraftMark[] = [];
  const paired = pairHoles(shapes.filter((shape) => usage(shape) === 'cut'));
  const complaints: Complaint[] = [...paired.complaints];
  const cut = new Map(paired.shapes.map((shape) => [shape.id, shape]));
  for (const drawn of shapes) {
    const process = usage(drawn);
    if (process === 'ignore') continue;
    // A hole went into its part.
    const shape = process === 'cut' ? cut.get(drawn.id) : drawn;
    if (shape === undefined) continue;
    if (process !== 'cut') {
      marks.push({ process, contours: shape.contours.map(plainContour), source: shape, after: parts.length });
      continue;
    }
    const closed = outlinesOf(shape);
    const open = shape.contours.filter((contour) => !contour.closed);
    if (open.length > 0) complaints.push(openCutComplaint(shape, open.length));
    if (closed.length === 0) {
      if (open.length === 0) complaints.push(noAreaComplaint(shape));
      continue;
    }
    const found = facesOfShape(shape, closed);
    complaints.push(...found.complaints);
    const faces = found.shapes.filter((face) => shapeArea(face) >= SMALLEST_OUTLINE_MM2);
    if (faces.length === 0) complaints.push(noAreaComplaint(shape));
    const outcome = crossingOutcome(shape, found.crossings, mayRepair);
    repairs.push(...outcome.repairs);
    complaints.push(...outcome.complaints);
    if (!outcome.isUsable) continue;
    if (faces.length > 1) complaints.push(severalPartsComplaint(shape, faces.length));
    for (const face of faces) {
      parts.push({ shape: face, region: shapeToRegion(face, FLATTEN_TOLERANCE_MM), source: shape });
    }
  }
  return { parts, marks, repairs, complaints };
}

export function openCutComplaint(shape: DrawnShape, count: number): Complaint {
  const lines = count === 1 ? 'an open line' : `${count} open lines`;
  return complain(
    'open-cut',
    'warning',
    `${shape.place.element} has ${lines} that should be cut but bounds no part: close it, or give its colour another process`,
    shape.place,
  );
}

function noAreaComplaint(shape: DrawnShape): Complaint {
  return complain('zero-area', 'error', `${shape.place.element} encloses no area and is left out`, shape.place);
}

function severalPartsComplaint(shape: DrawnShape, count: number): Complaint {
  return complain(
    'several-areas',
    'note',
    `${shape.place.element} has ${count} separate areas; each became a part of its own`,
    shape.place,
  );
}
