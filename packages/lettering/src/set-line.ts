import type { PathCommand } from 'fontkit';
import { visualRuns } from './direction.ts';
import type { LetterFont } from './font.ts';

/** One glyph on a line: user units, y down, origin on the baseline where the line begins. */
export interface SetGlyph {
  /** The characters that it shows. */
  readonly text: string;
  /** Index of its first character in the line, UTF-16. */
  readonly at: number;
  readonly x: number;
  readonly y: number;
  readonly advance: number;
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
 * @remarks With letter spacing optional ligatures are off (CSS Text Module Level 3, letter-spacing).
 */
export function setLine(font: LetterFont, text: string, options: LineOptions): SetLine {
  const scale = options.size / font.face.unitsPerEm;
  const features = options.letterSpacing === 0 ? undefined : { liga: false, clig: false };
  const glyphs: SetGlyph[] = [];
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
      const advance =
        position.xAdvance * scale +
        (position.xAdvance > 0 ? options.letterSpacing : 0) +
        (isSpace ? options.wordSpacing : 0);
      glyphs.push({
        text: place.text,
        at: run.from + place.at,
        x: x + position.xOffset * scale,
        y: -position.yOffset * scale,
        advance,
        outline: glyph.path.commands,
        isMissing: glyph.id === 0,
      });
      x += advance;
    }
  }
  return { glyphs, advance: x };
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
