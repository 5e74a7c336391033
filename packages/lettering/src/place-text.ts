import type { DrawnText, TextRun } from '@underlap/artwork/drawing';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import type { LetterFont } from './font.ts';
import { glyphContours } from './glyph-outline.ts';
import { type SetGlyph, setLine } from './set-line.ts';

/** Chords along a line of text: short, since a letter is turned as its chord is. User units of the text. */
const PATH_TOLERANCE = 1e-4;

/** One letter where it stands in the drawing, mm. */
export interface PlacedLetter {
  readonly text: string;
  /** Exact outlines; empty for a space. */
  readonly contours: readonly Contour[];
  readonly isMissing: boolean;
  /** Letters of one number touch in the order of reading: no white space and no new position between them. */
  readonly word: number;
}

export interface PlacedText {
  readonly letters: readonly PlacedLetter[];
  /** Characters that found no room on their path. */
  readonly offPath: string;
}

/** A glyph with its place in the text's user units, before anchors. */
interface LooseGlyph {
  readonly glyph: SetGlyph;
  readonly font: LetterFont;
  readonly run: TextRun;
  x: number;
  y: number;
}

/**
 * Set a text as SVG says (SVG 2, text layout): positions of characters, shifts, anchor of each chunk, text on a path.
 * @param fontOf - the font of each run.
 * @param scale - size of the letters as a share of the drawn one, about each chunk's anchor.
 */
export function placeText(text: DrawnText, fontOf: (run: TextRun) => LetterFont, scale = 1): PlacedText {
  const chunks: LooseGlyph[][] = [];
  let chunk: LooseGlyph[] = [];
  let anchorX = 0;
  let x = 0;
  let y = 0;
  const finish = () => {
    if (chunk.length > 0) {
      const shift = anchorShift(chunk[0]!.run.anchor, x - anchorX);
      for (const loose of chunk) loose.x += shift;
      chunks.push(chunk);
      x += shift;
    }
    chunk = [];
  };
  for (const run of text.runs) {
    const font = fontOf(run);
    for (const piece of placedPieces(run)) {
      if (piece.x !== null || piece.y !== null || chunk[0]?.run.path !== run.path) {
        finish();
        x = piece.x ?? x;
        y = piece.y ?? y;
        anchorX = x;
      }
      x += piece.dx * scale;
      y += piece.dy * scale;
      const line = setLine(font, piece.text, {
        size: run.size * scale,
        letterSpacing: run.letterSpacing * scale,
        wordSpacing: run.wordSpacing * scale,
        direction: run.direction,
      });
      for (const glyph of line.glyphs) chunk.push({ glyph, font, run, x: x + glyph.x, y: y + glyph.y });
      x += line.advance;
    }
  }
  finish();

  const letters: PlacedLetter[] = [];
  let word = 0;
  let offPath = '';
  for (const members of chunks) {
    word++;
    for (const loose of members) {
      const { glyph, font, run } = loose;
      const size = (run.size * scale) / font.face.unitsPerEm;
      const local = run.path === null ? standing(loose) : alongPath(loose, run.path);
      if (local === null) {
        offPath += glyph.text;
        continue;
      }
      const toDrawing = multiply(text.matrix, multiply(local, { ...IDENTITY, a: size, d: -size }));
      const contours = glyphContours(glyph.outline, toDrawing);
      if (contours.length === 0 && glyph.text.trim() === '') word++;
      letters.push({ text: glyph.text, contours, isMissing: glyph.isMissing, word });
    }
  }
  return { letters, offPath };
}

/** A stretch of a run with one position given at its beginning. */
interface Piece {
  readonly text: string;
  readonly x: number | null;
  readonly y: number | null;
  readonly dx: number;
  readonly dy: number;
}

/** A run cut where the drawing gives characters positions of their own. */
function placedPieces(run: TextRun): Piece[] {
  const length = run.text.length;
  const cuts = new Set([0]);
  for (const list of [run.x, run.y, run.dx, run.dy])
    for (let i = 0; i < Math.min(list.length, length); i++) cuts.add(i);
  const starts = [...cuts].sort((a, b) => a - b);
  return starts.map((from, index) => ({
    text: run.text.slice(from, starts[index + 1] ?? length),
    x: run.x[from] ?? null,
    y: run.y[from] ?? null,
    dx: run.dx[from] ?? 0,
    dy: run.dy[from] ?? 0,
  }));
}

function anchorShift(anchor: TextRun['anchor'], advance: number): number {
  if (anchor === 'middle') return -advance / 2;
  return anchor === 'end' ? -advance : 0;
}

function standing({ x, y }: LooseGlyph): Matrix {
  return { ...IDENTITY, e: x, f: y };
}

/**
 * The middle of the glyph's advance stands on the path, turned along it (SVG 2, text on a path).
 * @returns null where the path is too short.
 */
function alongPath({ x, y, glyph }: LooseGlyph, path: NonNullable<TextRun['path']>): Matrix | null {
  const half = glyph.advance / 2;
  const at = pointAt(path.contour, path.startOffset + x + half);
  if (at === null) return null;
  const { cos, sin } = at;
  const turned: Matrix = { a: cos, b: sin, c: -sin, d: cos, e: at.x, f: at.y };
  return multiply(turned, { ...IDENTITY, e: -half, f: y });
}

function pointAt(contour: Contour, distance: number): { x: number; y: number; cos: number; sin: number } | null {
  if (distance < 0) return null;
  const line = flattenContour(contour, PATH_TOLERANCE);
  const end = contour.closed ? line.length : line.length - 2;
  let left = distance;
  for (let i = 0; i < end; i += 2) {
    const j = (i + 2) % line.length;
    const dx = line[j]! - line[i]!;
    const dy = line[j + 1]! - line[i + 1]!;
    const length = Math.hypot(dx, dy);
    if (length > 0 && left <= length) {
      return {
        x: line[i]! + (dx * left) / length,
        y: line[i + 1]! + (dy * left) / length,
        cos: dx / length,
        sin: dy / length,
      };
    }
    left -= length;
  }
  return null;
}
