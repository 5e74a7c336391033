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
  /** Number of its letter in the chunk: a letter and its accent may be two glyphs. */
  readonly letter: string;
  /** Degrees about its place. */
  readonly turn: number;
  x: number;
  y: number;
  /** Width as a share of the font's. */
  wide: number;
}

/** Height of capitals as a share of the em where a font has no H, as in most text faces (value from memory). */
const CAPITALS_SHARE = 0.7;

/** Size of the em, user units. */
function emOf({ size, sizeOf }: Pick<TextRun, 'size' | 'sizeOf'>, font: LetterFont): number {
  return sizeOf === 'em' ? size : size / capitalsShare(font);
}

/** Height of an H over the em: what fonts state of their capitals is often left out. */
function capitalsShare({ face }: LetterFont): number {
  if (!face.hasGlyphForCodePoint(0x48)) return CAPITALS_SHARE;
  const [letter] = face.layout('H', undefined, undefined, undefined, 'ltr').glyphs;
  const heights = (letter?.path.commands ?? []).flatMap(({ args }) => args.filter((_, index) => index % 2 === 1));
  const share = Math.max(0, ...heights) / face.unitsPerEm;
  return share > 0.2 && share < 2 ? share : CAPITALS_SHARE;
}

/**
 * Set a text as SVG says (SVG 2, text layout): positions of characters, shifts and turns, stretching to a length, anchor of each
 * chunk, text on a path.
 * @param fontOf - the font of each run.
 * @param scale - size of the letters as a share of the drawn one, about each chunk's anchor.
 */
export function placeText(text: DrawnText, fontOf: (run: TextRun) => LetterFont, scale = 1): PlacedText {
  const size = scale * sizeToLength(text.runs, fontOf);
  const chunks: LooseGlyph[][] = [];
  let chunk: LooseGlyph[] = [];
  let x = 0;
  let y = 0;
  const finish = () => {
    if (chunk.length > 0) {
      const end = stretched(chunk, x, scale);
      const last = chunk.at(-1)!;
      // Space behind the last letter would shift what is centred.
      const shift = anchorShift(chunk[0]!.run, end - last.glyph.spacing - chunk[0]!.x);
      for (const loose of chunk) loose.x += shift;
      chunks.push(chunk);
      x = end + shift;
    }
    chunk = [];
  };
  for (const [number, run] of text.runs.entries()) {
    const font = fontOf(run);
    for (const stretch of placedStretches(run)) {
      if (stretch.x !== null || stretch.y !== null || chunk[0]?.run.path !== run.path) {
        finish();
        x = stretch.x ?? x;
        y = stretch.y ?? y;
      }
      const line = setLine(font, stretch.text, {
        size: emOf(run, font) * size,
        letterSpacing: run.letterSpacing * size,
        wordSpacing: run.wordSpacing * size,
        direction: run.direction,
      });
      const shifts = shiftsOf(run, stretch, new Set(line.glyphs.map((glyph) => stretch.from + glyph.at)), scale);
      for (const glyph of line.glyphs) {
        const at = stretch.from + glyph.at;
        const { dx, dy } = shifts.get(at) ?? NO_SHIFT;
        const turn = run.rotate[at] ?? 0;
        chunk.push({
          glyph,
          font,
          run,
          letter: `${number} ${at}`,
          turn,
          x: x + dx + glyph.x,
          y: y + dy + glyph.y,
          wide: 1,
        });
      }
      const { dx, dy } = [...shifts.values()].at(-1) ?? NO_SHIFT;
      x += dx + line.advance;
      y += dy;
    }
  }
  finish();

  const letters: PlacedLetter[] = [];
  let word = 0;
  let offPath = '';
  for (const members of chunks) {
    word++;
    for (const [at, loose] of members.entries()) {
      const { glyph, font, run, wide } = loose;
      const unit = (emOf(run, font) * size) / font.face.unitsPerEm;
      const local = run.path === null ? standing(loose) : alongPath(loose, run.path);
      if (local === null) {
        offPath += glyph.text;
        continue;
      }
      const toDrawing = multiply(text.matrix, multiply(local, { ...IDENTITY, a: unit * wide, d: -unit }));
      const contours = glyphContours(glyph.outline, toDrawing);
      if (contours.length === 0 && glyph.text.trim() === '') word++;
      const before = letters.at(-1);
      if (before !== undefined && members[at - 1]?.letter === loose.letter && !glyph.isMissing && !before.isMissing)
        letters[letters.length - 1] = {
          ...before,
          text: before.text + glyph.text,
          contours: [...before.contours, ...contours],
        };
      else letters.push({ text: glyph.text, contours, isMissing: glyph.isMissing, word });
    }
  }
  return { letters, offPath };
}

const NO_SHIFT = { dx: 0, dy: 0 };

/** How far each letter is shifted: a shift moves its letter and all that are read after it, whichever way they run. */
function shiftsOf(
  run: TextRun,
  { from, text }: PlacedStretch,
  letters: ReadonlySet<number>,
  scale: number,
): Map<number, { readonly dx: number; readonly dy: number }> {
  const shifts = new Map<number, { dx: number; dy: number }>();
  let [dx, dy] = [0, 0];
  for (let at = from; at < from + text.length; at++) {
    if (!letters.has(at)) continue;
    dx += (run.dx[at] ?? 0) * scale;
    dy += (run.dy[at] ?? 0) * scale;
    shifts.set(at, { dx, dy });
  }
  return shifts;
}

/** How much larger a text is to be set so that it becomes as long as it is told to, letters in both ways; 1 where nothing is told. */
function sizeToLength(runs: readonly TextRun[], fontOf: (run: TextRun) => LetterFont): number {
  const run = runs.find(({ stretch }) => stretch?.by === 'size');
  if (run?.stretch == null) return 1;
  const font = fontOf(run);
  const { letterSpacing, wordSpacing, direction } = run;
  const { advance } = setLine(font, run.text, { size: emOf(run, font), letterSpacing, wordSpacing, direction });
  return advance > 0 ? run.stretch.length / advance : 1;
}

/**
 * Make the runs of each group of a chunk as long together as they are told to be: by wider gaps, or by wider letters.
 * @param end - where the chunk ends. @returns where it ends now.
 */
function stretched(chunk: LooseGlyph[], end: number, scale: number): number {
  let grown = 0;
  for (let from = 0; from < chunk.length; ) {
    const stretch = chunk[from]!.run.stretch;
    let to = from;
    while (to < chunk.length && chunk[to]!.run.stretch?.group === stretch?.group) to++;
    const group = chunk.slice(from, to);
    for (const loose of group) loose.x += grown;
    if (stretch !== null && stretch.by !== 'size') {
      const begin = group[0]!.x;
      const last = group.at(-1)!;
      const natural = Math.max(...group.map(({ x, glyph }) => x + glyph.advance)) - begin - last.glyph.spacing;
      const wanted = stretch.length * scale;
      const letters = [...new Set(group.map(({ letter }) => letter))];
      const gap = stretch.by === 'gaps' && letters.length > 1 ? (wanted - natural) / (letters.length - 1) : 0;
      const wide = stretch.by === 'glyphs' && natural > 0 ? wanted / natural : 1;
      for (const loose of group) {
        loose.x = begin + (loose.x - begin) * wide + letters.indexOf(loose.letter) * gap;
        loose.wide = wide;
      }
      grown += wanted - natural;
    }
    from = to;
  }
  return end + grown;
}

/** A stretch of a run that stands at one place. */
interface PlacedStretch {
  readonly text: string;
  /** Index of its first character in the run. */
  readonly from: number;
  readonly x: number | null;
  readonly y: number | null;
}

/** A run cut where the drawing gives characters places of their own; shifts and turns cut no ligature and no kerning. */
function placedStretches(run: TextRun): PlacedStretch[] {
  const starts = new Set([0]);
  for (const list of [run.x, run.y])
    for (const [at, place] of list.entries()) if (place !== null && at < run.text.length) starts.add(at);
  const cuts = [...starts].sort((a, b) => a - b);
  return cuts.map((from, index) => ({
    text: run.text.slice(from, cuts[index + 1] ?? run.text.length),
    from,
    x: run.x[from] ?? null,
    y: run.y[from] ?? null,
  }));
}

/** Text that runs from right to left begins at its right end. */
function anchorShift({ anchor, direction }: TextRun, advance: number): number {
  if (anchor === 'middle') return -advance / 2;
  return (anchor === 'end') === (direction === 'rtl') ? 0 : -advance;
}

function standing({ x, y, turn }: LooseGlyph): Matrix {
  return multiply({ ...IDENTITY, e: x, f: y }, turned(turn));
}

function turned(degrees: number): Matrix {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return { a: cos, b: sin, c: -sin, d: cos, e: 0, f: 0 };
}

/**
 * The middle of the glyph's advance stands on the path, turned along it (SVG 2, text on a path).
 * @returns null where the path is too short.
 */
function alongPath({ x, y, turn, wide, glyph }: LooseGlyph, path: NonNullable<TextRun['path']>): Matrix | null {
  const half = (glyph.advance * wide) / 2;
  const at = pointAt(path.contour, path.startOffset + x + half);
  if (at === null) return null;
  const { cos, sin } = at;
  const along: Matrix = { a: cos, b: sin, c: -sin, d: cos, e: at.x, f: at.y };
  return multiply(along, multiply({ ...IDENTITY, e: -half, f: y }, turned(turn)));
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
