import { transformContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { Matrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import { type BulgeVertex, bulgeContour } from './bulge.ts';

/** Height of capitals and digits in the glyph grid; y grows downwards, the baseline lies at 6. */
const CAP_HEIGHT = 6;

/** Space between two glyphs, grid units. */
const GAP = 1.4;

/** One pen stroke: vertices x, y with the bulge of the way to the next; 'o' closes it. */
interface Stroke {
  readonly vertices: readonly BulgeVertex[];
  readonly closed: boolean;
}

interface Glyph {
  readonly width: number;
  readonly strokes: readonly Stroke[];
}

/** Quarter and three-eighths turns as bulges: tan(sweep / 4). */
const EIGHTH = 0.198912;
const THREE_EIGHTHS = 0.668179;
const THREE_QUARTERS = 2.414214;

const open = (...points: readonly (readonly number[])[]): Stroke => ({ vertices: points.map(vertex), closed: false });
const loop = (...points: readonly (readonly number[])[]): Stroke => ({ vertices: points.map(vertex), closed: true });
const vertex = ([x, y, bulge]: readonly number[]): BulgeVertex => ({ x: x ?? 0, y: y ?? 0, bulge: bulge ?? 0 });
const glyph = (width: number, ...strokes: readonly Stroke[]): Glyph => ({ width, strokes });

/** A plain single-line hand of our own: few strokes, true arcs, quick to burn and readable at 3 mm. */
const GLYPHS: Readonly<Record<string, Glyph>> = {
  '0': glyph(4, loop([0, 2, 1], [4, 2], [4, 4, 1], [0, 4])),
  '1': glyph(2, open([0, 1.6], [2, 0], [2, 6])),
  '2': glyph(4, open([0, 2, 1], [4, 2, EIGHTH], [3.4142, 3.4142], [0, 6], [4, 6])),
  '3': glyph(4, open([0.3, 0], [2.4, 0, 1], [2.4, 2.8], [1.2, 2.8]), open([2.4, 2.8, 1], [2.4, 6], [0, 6])),
  '4': glyph(4, open([3, 6], [3, 0], [0, 4.2], [4, 4.2])),
  '5': glyph(4, open([3.6, 0], [0.4, 0], [0.4, 2.4], [2.2, 2.4, 1], [2.2, 6], [0, 6])),
  '6': glyph(4, open([3.2, 0, -0.3], [0, 4, 1], [4, 4, 1], [0, 4])),
  '7': glyph(4, open([0, 0], [4, 0], [1.4, 6])),
  '8': glyph(3.2, loop([1.6, 0, 1], [1.6, 2.8, 1]), loop([1.6, 2.8, 1], [1.6, 6, 1])),
  '9': glyph(4, open([0.8, 6, -0.3], [4, 2, 1], [0, 2, 1], [4, 2])),
  A: glyph(4, open([0, 6], [2, 0], [4, 6]), open([0.6667, 4], [3.3333, 4])),
  B: glyph(4, open([0, 2.8], [0, 0], [2.4, 0, 1], [2.4, 2.8], [0, 2.8], [0, 6], [2.4, 6, -1], [2.4, 2.8])),
  C: glyph(3.6, open([3.4142, 0.5858, -THREE_EIGHTHS], [0, 2], [0, 4, -THREE_EIGHTHS], [3.4142, 5.4142])),
  D: glyph(4, loop([0, 6], [0, 0], [1, 0, 1], [1, 6])),
  E: glyph(3.6, open([3.6, 0], [0, 0], [0, 6], [3.6, 6]), open([0, 3], [3, 3])),
  F: glyph(3.6, open([3.6, 0], [0, 0], [0, 6]), open([0, 3], [3, 3])),
  G: glyph(4, open([3.4142, 0.5858, -THREE_EIGHTHS], [0, 2], [0, 4, -1], [4, 4], [4, 3.2], [2.4, 3.2])),
  H: glyph(4, open([0, 0], [0, 6]), open([4, 0], [4, 6]), open([0, 3], [4, 3])),
  I: glyph(0.4, open([0.2, 0], [0.2, 6])),
  J: glyph(3, open([3, 0], [3, 4.5, 1], [0, 4.5])),
  K: glyph(3.8, open([0, 0], [0, 6]), open([3.8, 0], [0, 3.8]), open([1.4, 2.4], [3.8, 6])),
  L: glyph(3.4, open([0, 0], [0, 6], [3.4, 6])),
  M: glyph(5, open([0, 6], [0, 0], [2.5, 3.6], [5, 0], [5, 6])),
  N: glyph(4, open([0, 6], [0, 0], [4, 6], [4, 0])),
  O: glyph(5, loop([0, 2.5, 1], [5, 2.5], [5, 3.5, 1], [0, 3.5])),
  P: glyph(3.9, open([0, 6], [0, 0], [2.3, 0, 1], [2.3, 3.2], [0, 3.2])),
  Q: glyph(5, loop([0, 2.5, 1], [5, 2.5], [5, 3.5, 1], [0, 3.5]), open([3.2, 4.2], [5, 6])),
  R: glyph(3.9, open([0, 6], [0, 0], [2.3, 0, 1], [2.3, 3.2], [0, 3.2]), open([1.9, 3.2], [3.9, 6])),
  S: glyph(3.2, open([3, 1.4, -THREE_QUARTERS], [1.6, 2.8, THREE_QUARTERS], [0, 4.4])),
  T: glyph(4, open([0, 0], [4, 0]), open([2, 0], [2, 6])),
  U: glyph(4, open([0, 0], [0, 4, -1], [4, 4], [4, 0])),
  V: glyph(4, open([0, 0], [2, 6], [4, 0])),
  W: glyph(5.6, open([0, 0], [1.4, 6], [2.8, 1.2], [4.2, 6], [5.6, 0])),
  X: glyph(4, open([0, 0], [4, 6]), open([4, 0], [0, 6])),
  Y: glyph(4, open([0, 0], [2, 3], [4, 0]), open([2, 3], [2, 6])),
  Z: glyph(4, open([0, 0], [4, 0], [0, 6], [4, 6])),
  '-': glyph(2, open([0, 3], [2, 3])),
  _: glyph(3, open([0, 6], [3, 6])),
  '+': glyph(3, open([0, 3], [3, 3]), open([1.5, 1.5], [1.5, 4.5])),
  '=': glyph(3, open([0, 2.2], [3, 2.2]), open([0, 3.8], [3, 3.8])),
  '/': glyph(2.6, open([0, 6], [2.6, 0])),
  '.': glyph(0.6, open([0.3, 5.5], [0.3, 6])),
  ',': glyph(0.8, open([0.6, 5.4], [0.2, 6.8])),
  ':': glyph(0.6, open([0.3, 1.8], [0.3, 2.3]), open([0.3, 5], [0.3, 5.5])),
  '#': glyph(4, open([1.4, 0.5], [0.8, 5.5]), open([3.2, 0.5], [2.6, 5.5]), open([0, 2], [4, 2]), open([0, 4], [4, 4])),
  '(': glyph(1.2, open([1.2, -0.4, -0.35], [1.2, 6.4])),
  ')': glyph(1.2, open([0, -0.4, 0.35], [0, 6.4])),
  '%': glyph(4.4, loop([0, 1, 1], [1.6, 1, 1]), loop([2.8, 5, 1], [4.4, 5, 1]), open([0.6, 6], [3.8, 0])),
  ' ': glyph(1.6),
};

/** Stands where the hand has no sign for a character, so that nothing vanishes unseen. */
const MISSING: Glyph = glyph(3, loop([0, 1], [3, 1], [3, 6], [0, 6]));

/** Text that would read as another number upside down: it gets a bar below it. */
const TURNS_INTO_ANOTHER = /^(?=.*[69])[0689]+$/;

/** How far below the baseline the bar lies, grid units; the digits give way so that all of it keeps the asked height. */
const BAR_DROP = 1.4;

/** Width of the text, mm, as drawn by `strokeText` with the same height. Small letters are drawn as capitals. */
export function strokeTextWidth(text: string, heightMm: number): number {
  return (unitsWide(text) * heightMm) / unitsHigh(text);
}

/**
 * Text as single strokes (lines and arcs), upright in a frame whose y grows downwards.
 * @param middle - centre of the text's box, mm.
 * @param heightMm - height of the whole: of capitals and digits, the bar included where there is one; > 0.
 * @param turnDeg - turn about the middle, from +x towards +y.
 * @returns open and closed contours; numbers made of 0, 6, 8, 9 that would read as another number upside down get a bar below.
 */
export function strokeText(text: string, middle: Point, heightMm: number, turnDeg = 0): Contour[] {
  const scale = heightMm / unitsHigh(text);
  const radians = (turnDeg * Math.PI) / 180;
  const cos = Math.cos(radians) * scale;
  const sin = Math.sin(radians) * scale;
  const width = unitsWide(text);
  const dy = -unitsHigh(text) / 2;
  const contours: Contour[] = [];
  const draw = (stroke: Stroke, x: number): void => {
    const dx = x - width / 2;
    const e = middle.x + cos * dx - sin * dy;
    const f = middle.y + sin * dx + cos * dy;
    const matrix: Matrix = { a: cos, b: sin, c: -sin, d: cos, e, f };
    contours.push(transformContour(bulgeContour(stroke.vertices, stroke.closed), matrix));
  };
  let x = 0;
  for (const { width: step, strokes } of glyphsOf(text)) {
    for (const stroke of strokes) draw(stroke, x);
    x += step + GAP;
  }
  const bar = CAP_HEIGHT + BAR_DROP;
  if (hasBar(text)) draw(open([0, bar], [width, bar]), 0);
  return contours;
}

/** Can this character be drawn? Small letters are drawn as capitals. */
export function hasStroke(character: string): boolean {
  return [...character.toUpperCase()].every((sign) => Object.hasOwn(GLYPHS, sign));
}

function hasBar(text: string): boolean {
  return TURNS_INTO_ANOTHER.test(text);
}

function unitsHigh(text: string): number {
  return CAP_HEIGHT + (hasBar(text) ? BAR_DROP : 0);
}

function unitsWide(text: string): number {
  const glyphs = glyphsOf(text);
  return glyphs.reduce((sum, { width }) => sum + width, 0) + GAP * Math.max(0, glyphs.length - 1);
}

function glyphsOf(text: string): Glyph[] {
  return [...text.toUpperCase()].map((character) => GLYPHS[character] ?? MISSING);
}
