import type { Complaint, DrawnShape } from '@underlap/artwork/drawing';
import { orientedContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { ringArea } from '@underlap/geometry/ring';
import { type ShapesFound, shapesFromContours } from '@underlap/geometry/shapes-from-contours';
import { complain } from './draft.ts';
import type { Outline } from './outline.ts';
import { nestOutlines } from './outline-tree.ts';

/** What one shape's closed outlines bound. */
export interface ShapeFaces extends ShapesFound {
  readonly complaints: readonly Complaint[];
}

/**
 * What a shape's own outlines bound: the same in stacked and spread drawings. A filled shape is what its fill rule shows. Bare
 * lines show nothing but themselves, and all of them would be cut: outlines inside others are holes whatever their direction,
 * and outlines that overlap (letters of a script) are united.
 * @param outlines - closed outlines of the shape.
 */
export function facesOfShape(shape: DrawnShape, outlines: readonly Outline[]): ShapeFaces {
  const nodes = outlines.length > 1 ? nestOutlines(outlines) : [];
  if (shape.fill === null) {
    const contours = outlines.map(({ contour }, index): Contour => {
      // A lone outline that crosses itself keeps its direction: its lobes may turn either way.
      return nodes.length === 0 ? contour : orientedContour(contour, nodes[index]!.depth % 2 === 0 ? 1 : -1);
    });
    return { ...shapesFromContours(contours, 'nonzero'), complaints: [] };
  }
  const found = shapesFromContours(
    outlines.map((outline) => outline.contour),
    shape.fillRule,
  );
  const idle = shape.fillRule === 'nonzero' ? idleOutlines(nodes) : 0;
  return { ...found, complaints: idle === 0 ? [] : [idleComplaint(shape, idle)] };
}

/** Inner outlines that run the same way round as what they lie in: by the nonzero rule both of their sides are filled. */
function idleOutlines(nodes: ReturnType<typeof nestOutlines>): number {
  const holder = new Map(nodes.flatMap(({ outline, inside }) => inside.map((inner) => [inner, outline] as const)));
  const turnOf = ({ ring }: Outline): number => (ringArea(ring) >= 0 ? 1 : -1);
  const windingIn = (outline: Outline | undefined): number =>
    outline === undefined ? 0 : turnOf(outline) + windingIn(holder.get(outline));
  return nodes.filter(
    ({ outline, depth }) => depth > 0 && windingIn(outline) !== 0 && windingIn(holder.get(outline)) !== 0,
  ).length;
}

function idleComplaint(shape: DrawnShape, idle: number): Complaint {
  const lines = idle === 1 ? 'an inner outline that has' : `${idle} inner outlines that have`;
  const message = `${shape.place.element} has ${lines} no effect: by its fill rule (nonzero) what runs the same way round as the outline around it is filled, as the drawing shows; if it is a hole, set the fill rule to evenodd or reverse it`;
  return complain('inner-outline-idle', 'warning', message, shape.place);
}
