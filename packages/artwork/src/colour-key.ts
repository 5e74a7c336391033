import { contourLength } from '@underlap/geometry/contour';
import type { Colour, Drawing, DrawnShape, Process } from './drawing.ts';
import { type ClosedOutline, closedOutlines, OutlineIndex } from './outline-index.ts';

/** What the shop says that its colours stand for; saved with the job. `paint` is a part's paint, `ignore` is left out. */
export type ColourKey = Readonly<Record<Colour, Process | 'ignore' | 'paint'>>;

/** The same by the names of layers and groups. */
export type LayerKey = Readonly<Record<string, Process | 'ignore' | 'paint'>>;

/** One colour of a drawing in one use, with the process that its geometry suggests. */
export interface ColourUse {
  readonly colour: Colour;
  /** `line`: outlines of shapes without a fill; `fill`: filled shapes, whatever their outline. */
  readonly usedAs: 'line' | 'fill';
  readonly shapes: number;
  readonly contours: number;
  readonly closedContours: number;
  /** Length of all contours, drawing units. */
  readonly length: number;
  readonly proposed: Process | 'paint';
  /** Why, in a few words. */
  readonly reason: string;
}

/** Share of the outermost outlines' area that a colour must bound to be a cutting colour; less may be a stray label. */
const BOUNDS_SHARE = 0.02;

/**
 * The colours of a drawing with counts and a proposed process each, largest length first.
 *
 * Line colours: whatever lies in no other closed outline bounds the parts, so a colour that draws such outermost closed
 * outlines cuts. A colour whose closed outlines all lie inside others, or which has open lines only, scores. Fills are paint
 * of parts, unless the drawing has cut lines and every shape of that fill lies inside one: then it is an engraved area.
 * @remarks O(n log n + k) in contours, k the pairs of nested boxes.
 */
export function colourUses(drawing: Pick<Drawing, 'shapes'>): ColourUse[] {
  const groups = new Map<string, Group>();
  for (const shape of drawing.shapes) {
    const usedAs = shape.fill === null ? 'line' : 'fill';
    const colour = shape.fill ?? shape.stroke;
    if (colour === null) continue;
    const key = `${usedAs} ${colour}`;
    const group = groups.get(key) ?? { colour, usedAs, shapes: [] };
    group.shapes.push(shape);
    groups.set(key, group);
  }
  const lines = [...groups.values()].filter((group) => group.usedAs === 'line');
  const outlines = closedOutlines([...groups.values()]);
  const outermost = new OutlineIndex(outlines).outermost();
  const cutting = new Set(lines.filter((group) => bounds(group, outlines, outermost)).map(({ colour }) => colour));
  const index = new OutlineIndex(outlines.filter(({ group }) => group.usedAs === 'line' && cutting.has(group.colour)));
  return [...groups.values()]
    .map((group) => useOf(group, cutting, index))
    .sort((a, b) => b.length - a.length || a.colour.localeCompare(b.colour));
}

/** Shapes of one colour in one use. */
interface Group {
  readonly colour: Colour;
  readonly usedAs: 'line' | 'fill';
  readonly shapes: DrawnShape[];
}

function useOf({ colour, usedAs, shapes }: Group, cutting: ReadonlySet<Colour>, index: OutlineIndex<Group>): ColourUse {
  const contours = shapes.flatMap((shape) => shape.contours);
  const counts = {
    colour,
    usedAs,
    shapes: shapes.length,
    contours: contours.length,
    closedContours: contours.filter((contour) => contour.closed).length,
    length: contours.reduce((sum, contour) => sum + contourLength(contour), 0),
  };
  if (usedAs === 'fill') {
    const isEngraved = cutting.size > 0 && contours.every((contour) => index.holds(contour));
    return isEngraved
      ? { ...counts, proposed: 'engrave', reason: 'its areas lie inside cut outlines' }
      : { ...counts, proposed: 'paint', reason: 'filled shapes are parts, and the fill is their paint' };
  }
  if (cutting.has(colour)) return { ...counts, proposed: 'cut', reason: 'its outlines bound the parts' };
  if (counts.closedContours === 0) return { ...counts, proposed: 'score', reason: 'it has open lines only' };
  return { ...counts, proposed: 'score', reason: 'its outlines lie inside those of another colour' };
}

/**
 * Does the colour bound parts: with every closed outline it has, or with a share of the outermost area that outweighs what it
 * draws inside other colours' outlines? (The mark for a banner that reaches over the edge of its backer is outermost too.)
 */
function bounds(
  group: Group,
  outlines: readonly ClosedOutline<Group>[],
  outermost: ReadonlySet<ClosedOutline<Group>>,
): boolean {
  const own = outlines.filter((outline) => outline.group === group);
  const outer = own.filter((outline) => outermost.has(outline));
  const area = (list: Iterable<ClosedOutline<Group>>): number =>
    [...list].reduce((sum, outline) => sum + outline.area, 0);
  if (outer.length === 0 || outer.length === own.length) return outer.length > 0;
  if (area(outer) <= BOUNDS_SHARE * area(outermost)) return false;
  const others = new OutlineIndex([...outermost].filter((outline) => outline.group !== group));
  return area(outer) >= area(own.filter((outline) => !outermost.has(outline) && others.holds(outline.contour)));
}
