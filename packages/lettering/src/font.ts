import type { Font } from 'fontkit';
import { LetteringError } from './error.ts';

/** A font file that the maker gave, opened. */
export interface LetterFont {
  /** File name, for messages. */
  readonly file: string;
  readonly family: string;
  /** "Bold Italic" and the like, as the file says. */
  readonly style: string;
  readonly face: Font;
}

/** Larger files are no fonts that a sign is lettered with. */
const MOST_BYTES = 40_000_000;

/**
 * Open a font file: TrueType, OpenType, WOFF or WOFF2; of a collection the first font.
 * @throws LetteringError `bad-font` when the bytes are no font that can be read.
 * @remarks The shaping library (fontkit) is loaded at the first call only: jobs without lettering do not pay for it.
 */
export async function openFont(bytes: Uint8Array, file: string): Promise<LetterFont> {
  if (bytes.length > MOST_BYTES)
    throw new LetteringError(
      'bad-font',
      `${file} is larger than ${MOST_BYTES / 1e6} MB: give a font file of one style.`,
      file,
    );
  const { create } = await import('fontkit');
  try {
    const opened = create(bytes);
    const face = 'fonts' in opened ? opened.fonts[0] : opened;
    if (face === undefined) throw new Error('the collection holds no font');
    if (!(face.unitsPerEm > 0)) throw new Error('it has no unit of size');
    // Files that are cut off open all the same: their tables are looked at only when letters are made.
    for (const { path } of face.layout('Hg1', undefined, undefined, undefined, 'ltr').glyphs) void path.commands.length;
    return { file, family: face.familyName ?? file, style: face.subfamilyName ?? 'Regular', face };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new LetteringError(
      'bad-font',
      `${file} is not a font that can be read (${why}): give a TrueType, OpenType, WOFF or WOFF2 file.`,
      file,
    );
  }
}

/** What a text asks for. */
export interface FontWish {
  /** Families as the drawing lists them, best first. */
  readonly families: readonly string[];
  /** 100 to 900; 400 = regular. */
  readonly weight: number;
  readonly italic: boolean;
}

/** The font taken for a text, and whether it is the family that the drawing names. */
export interface FontChoice {
  readonly font: LetterFont;
  readonly isNamed: boolean;
}

/**
 * The font that serves a wish best: by family first, then slant, then weight.
 * @returns null without fonts. A font of another family is taken when none of the named ones was given; `isNamed` tells.
 */
export function chooseFont(fonts: readonly LetterFont[], wish: FontWish): FontChoice | null {
  const plain = (name: string) =>
    name
      .trim()
      .replace(/^["']|["']$/g, '')
      .toLowerCase();
  const rankOf = (font: LetterFont) => {
    const at = wish.families.findIndex((family) => plain(family) === plain(font.family));
    return at < 0 ? wish.families.length : at;
  };
  const ranked = fonts
    .map((font, index) => ({
      font,
      index,
      rank: rankOf(font),
      slant: isItalic(font) === wish.italic ? 0 : 1,
      weight: Math.abs(weightOf(font) - wish.weight),
    }))
    .sort((a, b) => a.rank - b.rank || a.slant - b.slant || a.weight - b.weight || a.index - b.index);
  const best = ranked[0];
  return best === undefined ? null : { font: best.font, isNamed: best.rank < wish.families.length };
}

function isItalic(font: LetterFont): boolean {
  return /italic|oblique/i.test(font.style);
}

/** Weights by their customary names (CSS Fonts Module Level 4, font-weight). */
const WEIGHTS: readonly (readonly [RegExp, number])[] = [
  [/extra.?light|ultra.?light/i, 200],
  [/thin/i, 100],
  [/light/i, 300],
  [/medium/i, 500],
  [/semi.?bold|demi/i, 600],
  [/extra.?bold|ultra.?bold/i, 800],
  [/black|heavy/i, 900],
  [/bold/i, 700],
];

function weightOf(font: LetterFont): number {
  return WEIGHTS.find(([name]) => name.test(font.style))?.[1] ?? 400;
}
