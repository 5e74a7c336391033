import type { PathCommand } from 'fontkit';
import { visualRuns } from './direction.ts';
import type { LetterFont } from './font.ts';

/** One glyph on a line: user units, y down, origin on the baseline where the line begins. */
export interface SetGlyph {
  /** The characters that it shows. */
  readonly text: string;
  /** Index of the first character of its letter in the line, UTF-16: an accent that is a glyph of its own stands with its letter. */
  readonly at: number;
  readonly x: number;
  readonly y: number;
  readonly advance: number;
  /** Letter spacing within the advance. */
  readonly spacing: number;
  /** Outline in font units, y up. */
  readonly outline: readonly PathCommand[];
  /** The font has no shape for these characters. */
  readonly isMissing: boolean;
}

/** A line with its glyphs from left to right, and how far it advances. */
export interface SetLine {
  readonly glyphs: readonly SetGlyph[];
  readonly advance: number;
}

export interface LineOptions {
  /** Size of the em, user units. */
  readonly size: number;
  readonly letterSpacing: number;
  readonly wordSpacing: number;
  readonly direction: 'ltr' | 'rtl' | 'auto';
}

/**
 * Shape one line of text: ligatures, kerning, marks and joining by the font's own tables (fontkit), order by direction.
 * @remarks With letter spacing optional ligatures are off, and letters of joined scripts are not spaced (CSS Text Module Level 3,
 * 'letter-spacing' and 'cursive scripts').
 */
export function setLine(font: LetterFont, text: string, options: LineOptions): SetLine {
  const scale = options.size / font.face.unitsPerEm;
  const features = options.letterSpacing === 0 ? undefined : { liga: false, clig: false };
  const glyphs: SetGlyph[] = [];
  const letterAt = letterStarts(text);
  let x = 0;
  for (const run of visualRuns(text, options.direction)) {
    const shaped = font.face.layout(run.text, features, undefined, undefined, run.direction);
    const places = characterPlaces(
      run.text,
      shaped.glyphs.map((glyph) => glyph.codePoints),
      run.direction,
    );
    for (const [index, glyph] of shaped.glyphs.entries()) {
      const position = shaped.positions[index]!;
      const place = places[index]!;
      const isSpace = place.text.trim() === '' && place.text !== '';
      const spacing = position.xAdvance > 0 && !JOINED_SCRIPTS.test(place.text) ? options.letterSpacing : 0;
      const advance = position.xAdvance * scale + spacing + (isSpace ? options.wordSpacing : 0);
      glyphs.push({
        text: place.text,
        at: letterAt[run.from + place.at] ?? run.from + place.at,
        x: x + position.xOffset * scale,
        y: -position.yOffset * scale,
        advance,
        spacing,
        outline: glyph.path.commands,
        isMissing: glyph.id === 0,
      });
      x += advance;
    }
  }
  return { glyphs, advance: x };
}

const JOINED_SCRIPTS =
  /[\p{Script=Arabic}\p{Script=Syriac}\p{Script=Nko}\p{Script=Mandaic}\p{Script=Mongolian}\p{Script=Phags_Pa}]/u;

/** For every character the first one of the letter that it belongs to (Unicode Standard Annex 29, grapheme clusters). */
function letterStarts(text: string): number[] {
  const starts: number[] = [];
  for (const { index, segment } of new Intl.Segmenter(undefined, { granularity: 'grapheme' }).segment(text))
    for (let at = 0; at < segment.length; at++) starts.push(index);
  return starts;
}

/** Where the characters of each glyph stand in the run: glyphs carry code points, in visual order. */
function characterPlaces(
  text: string,
  codePoints: readonly (readonly number[])[],
  direction: 'ltr' | 'rtl',
): { text: string; at: number }[] {
  const order = direction === 'ltr' ? codePoints : codePoints.slice().reverse();
  let at = 0;
  const places = order.map((points) => {
    const words = String.fromCodePoint(...points);
    // Shaping may add or compose code points; then the next character that is there counts.
    const found = words === '' ? at : text.indexOf(words, at);
    const place = { text: words, at: found < 0 ? Math.min(at, Math.max(0, text.length - 1)) : found };
    if (found >= 0) at = found + words.length;
    return place;
  });
  return direction === 'ltr' ? places : places.reverse();
}
