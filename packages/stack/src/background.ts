import type { Colour, Complaint, Drawing, DrawnShape } from '@underlap/artwork/drawing';
import { contourBounds } from '@underlap/geometry/contour';
import { complain } from './draft.ts';

/** A page may be drawn this far off its own size, as a share of it. */
const PAGE_SHARE = 0.005;

/** From this value on in every channel a colour is that of paper. */
const PAPER = 0xf0;

const PAGE_NAMES = /^(?:page|paper|background|back-?ground|bg|canvas|white)[-_ ]*\d*$/i;

/**
 * The white page that some programs put below a drawing: the lowest shape, a plain rectangle as large as the page, the colour of
 * paper, without an outline of its own and without a name that says otherwise. A backer of that size is usually named, coloured
 * or outlined; where it is not, the complaint tells how to keep it.
 * @param shapes - those that may be parts, bottom first.
 */
export function backgroundOf(drawing: Drawing, shapes: readonly DrawnShape[]): DrawnShape | null {
  const [lowest] = shapes;
  const page = pageOf(drawing);
  if (lowest === undefined || page === null || shapes.length < 2) return null;
  const { fill, stroke, name, contours } = lowest;
  if (fill === null || !isPaper(fill) || (stroke !== null && !isPaper(stroke))) return null;
  if (name !== null && !PAGE_NAMES.test(name)) return null;
  const [only] = contours;
  if (only === undefined || contours.length > 1 || only.segments.length > 5) return null;
  if ([...only.segments].some(({ kind }) => kind !== 'line')) return null;
  const box = contourBounds(only);
  const slack = PAGE_SHARE * Math.max(page.width, page.height);
  const isAtEdge = (value: number, edge: number) => Math.abs(value - edge) <= slack;
  const isWide = isAtEdge(box.minX, 0) && isAtEdge(box.maxX, page.width);
  return isWide && isAtEdge(box.minY, 0) && isAtEdge(box.maxY, page.height) ? lowest : null;
}

export function backgroundComplaint({ place }: DrawnShape): Complaint {
  const message = `${place.element} is white and as large as the page, so it is taken for the page and no part: if it is the backer, keep it (--keep-background, artwork.keepBackground in the job)`;
  return complain('background', 'warning', message, place);
}

/** The page in the drawing's units: a drawing without a size still has a page. */
function pageOf({ format, size }: Drawing): { width: number; height: number } | null {
  if (format !== 'svg') return null;
  if (size.kind === 'known') return { width: size.widthMm, height: size.heightMm };
  const [choice] = size.choices;
  if (choice === undefined) return null;
  const perMm = choice.perInch / 25.4;
  return { width: choice.widthMm * perMm, height: choice.heightMm * perMm };
}

function isPaper(colour: Colour): boolean {
  return [1, 3, 5].every((at) => Number.parseInt(colour.slice(at, at + 2), 16) >= PAPER);
}
