import type { Complaint, Drawing, DrawnShape, DrawnText, TextRun } from '@underlap/artwork/drawing';
import { harmlessText } from '@underlap/artwork/harmless-text';
import { hasStroke } from '@underlap/artwork/stroke-font';
import { contourBounds } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import type { Point } from '@underlap/geometry/point';
import { shapesFromContours } from '@underlap/geometry/shapes-from-contours';
import { LetteringError } from './error.ts';
import { chooseFont, type LetterFont } from './font.ts';
import { type PlacedLetter, type PlacedText, placeText } from './place-text.ts';
import { scoredText } from './scored-text.ts';
import { thinnestPlace } from './thin-strokes.ts';
import { weldLetters } from './weld.ts';

/** How the texts of a drawing become parts. */
export interface LetteringOptions {
  readonly fonts: readonly LetterFont[];
  /** `apart`: every letter a part; `joined`: the letters of a word one part where they overlap. */
  readonly letters: 'apart' | 'joined';
  /** Joined letters are moved together until they overlap by this, mm; 0 leaves them where they are. */
  readonly weldMm: number;
  /** Strokes below this are told, mm; the thickness of the stock that a text is cut from (common practice, no source). */
  readonly leastStrokeMm: number | ((text: DrawnText) => number);
  /** Texts that stay text and are scored in single lines: none, all, or those of these ids or names. Default none. */
  readonly score?: 'none' | 'all' | readonly string[];
  /** Words for named places, by the text's id or name; a place that is not named keeps its drawn words. */
  readonly words: Readonly<Record<string, string>>;
  /** Room of named places, mm: longer words are set smaller until they go in. */
  readonly rooms: Readonly<Record<string, Room>>;
}

/** Where the complaints that are only counted are placed. */
const REST_OF_COMPLAINTS = 'drawing';

/** Words longer than this are a mistake in a table, not a name on a sign. */
const MOST_CHARACTERS = 500;

/** Lines of words that are filled in follow one another by this share of the em (common practice, no source). */
const LINE_STEP = 1.2;

/** Height of capitals as a share of the em (value from memory). */
const CAPITALS_SHARE = 0.7;

/** Words set smaller than this share of the drawn size do not look like the sign any more: refused instead. */
const LEAST_SCALE = 0.35;

/**
 * The drawing with its texts as shapes: letters that the sign stage takes like drawn ones, in the place of the text in the stack.
 * @returns a drawing without texts; what could not be set is told as a complaint, as is every missing letter and thin stroke.
 * Without fonts, and without words to fill in, the drawing is returned as it is: its texts stay told as missing.
 * @throws LetteringError `no-place` for words of a place that the drawing has not, `no-font` for words without any font and for a drawing of nothing but text, `empty-text` for a named place without words, `too-long` when words do not
 * go into their room at a third of the drawn size.
 */
export function letterDrawing(drawing: Drawing, options: LetteringOptions): Drawing {
  assertPlaces(drawing, options);
  if (drawing.texts.length === 0) return drawing;
  const lettered = drawing.texts.filter((text) => !isScored(text, options));
  if (options.fonts.length === 0 && lettered.length > 0) {
    const [first] = lettered;
    if (
      Object.keys(options.words).length === 0 &&
      drawing.shapes.length > 0 &&
      lettered.length === drawing.texts.length
    )
      return drawing;
    throw new LetteringError(
      'no-font',
      `${drawing.name} holds text (${shown(wordsOf(first!))}) and no font was given: give the font's file, let the text be scored, or convert it to outlines in the drawing program.`,
      first!.id,
    );
  }
  const complaints: Complaint[] = [];
  const shapes: DrawnShape[] = [];
  let next = 0;
  for (const text of drawing.texts) {
    // A shape that was left out as a double is not found again: then the text lies where the last one was.
    const before = text.after === null ? -1 : drawing.shapes.findIndex((shape) => shape.id === text.after);
    if (before + 1 > next) {
      shapes.push(...drawing.shapes.slice(next, before + 1));
      next = before + 1;
    }
    const words = filled(text, options);
    if (isScored(text, options)) shapes.push(...scoredShapes(words, options, complaints));
    else shapes.push(...shapesOfText(words, drawing.name, options, complaints));
  }
  shapes.push(...drawing.shapes.slice(next));
  const set = new Set(drawing.texts.map(({ place }) => harmlessText(place.element)).concat(REST_OF_COMPLAINTS));
  const told = drawing.complaints.filter(({ code, place }) => code !== 'text' || !set.has(place.element));
  return { ...drawing, texts: [], shapes, complaints: [...told, ...complaints] };
}

/** @throws LetteringError `no-place`: a table whose column is misspelt would give signs without names. */
function assertPlaces(drawing: Drawing, { words }: LetteringOptions): void {
  const places = drawing.texts.flatMap(({ id, name }) => [id, ...(name === null ? [] : [name])]);
  const unknown = Object.keys(words).find((place) => !places.includes(place));
  if (unknown === undefined) return;
  const ids = drawing.texts.map(({ id }) => `"${id}"`).slice(0, 8);
  throw new LetteringError(
    'no-place',
    `${drawing.name} has no text called "${unknown}": ${ids.length === 0 ? 'it holds no text at all' : `its texts are ${ids.join(', ')}`}.`,
    unknown,
  );
}

function isScored(text: DrawnText, { score = 'none' }: LetteringOptions): boolean {
  if (typeof score === 'string') return score === 'all';
  return score.includes(text.id) || (text.name !== null && score.includes(text.name));
}

function scoredShapes(text: DrawnText, options: LetteringOptions, complaints: Complaint[]): DrawnShape[] {
  const tell = (code: string, message: string) =>
    complaints.push({ code, severity: 'error', message, place: text.place });
  const missing = [...new Set(text.runs.flatMap((run) => [...run.text]))].filter((sign) => !hasStroke(sign));
  if (missing.length > 0)
    tell(
      'missing-letter',
      `${missing.map(shown).join(', ')} of "${wordsOf(text)}" cannot be scored: a box stands for it.`,
    );
  const drawn = scoredText(text);
  if (drawn === null) {
    tell('text-without-letters', `"${wordsOf(text)}" cannot be scored in single lines: only plain lines of text can.`);
    return [];
  }
  const room = roomOf(text, options);
  const scale = room === undefined ? 1 : scaleTo(drawn.contours, room);
  assertScale(text, scale, room);
  return [(scale < 1 ? scoredText(text, scale) : drawn) ?? drawn];
}

/** The text with the words that the table gives for its place. */
function filled(text: DrawnText, options: LetteringOptions): DrawnText {
  const name = [text.id, text.name].find((key) => key !== null && Object.hasOwn(options.words, key));
  if (name === undefined || name === null) return text;
  const words = options.words[name]!.normalize('NFC')
    .replace(/[^\P{Cc}\n]/gu, '')
    .trim();
  if (words === '')
    throw new LetteringError(
      'empty-text',
      `There are no words for the place "${name}": fill its column, or take the place out of the table.`,
      name,
    );
  if (words.length > MOST_CHARACTERS)
    throw new LetteringError(
      'too-long',
      `The words for "${name}" have ${words.length} characters; at most ${MOST_CHARACTERS} can be set.`,
      name,
    );
  const first = text.runs[0];
  if (first === undefined) return text;
  const at = {
    ...first,
    x: first.x.slice(0, 1),
    y: first.y.slice(0, 1),
    dx: first.dx.slice(0, 1),
    dy: first.dy.slice(0, 1),
    rotate: [],
    // Other words have a length of their own.
    stretch: null,
  };
  const step = first.size * (first.sizeOf === 'em' ? LINE_STEP : LINE_STEP / CAPITALS_SHARE);
  const below = { ...at, y: [], dx: [], dy: [step] };
  const lines = words.split('\n').map((line) => line.trim());
  return { ...text, runs: lines.map((line, index) => ({ ...(index === 0 ? at : below), text: line })) };
}

function shapesOfText(text: DrawnText, file: string, options: LetteringOptions, complaints: Complaint[]): DrawnShape[] {
  const tell = (code: string, severity: Complaint['severity'], message: string) =>
    complaints.push({ code, severity, message, place: text.place });
  const { leastStrokeMm } = options;
  const leastMm = typeof leastStrokeMm === 'number' ? leastStrokeMm : leastStrokeMm(text);
  const foreign = new Set<string>();
  const fontOf = (run: TextRun): LetterFont => {
    const choice = chooseFont(options.fonts, run)!;
    if (!choice.isNamed && run.families.length > 0) foreign.add(`${run.families[0]} -> ${choice.font.family}`);
    return choice.font;
  };
  let placed = placedWith(text, fontOf);
  const room = roomOf(text, options);
  if (room !== undefined) {
    const scale = scaleTo(
      placed.letters.flatMap((letter) => letter.contours),
      room,
    );
    assertScale(text, scale, room);
    if (scale < 1) {
      placed = placedWith(text, fontOf, scale);
      tell(
        'text-set-smaller',
        'note',
        `"${wordsOf(text)}" is set at ${Math.round(scale * 100)} % of the drawn size to go into ${room.width} mm.`,
      );
    }
  }
  for (const change of foreign)
    tell(
      'other-font',
      'warning',
      `The font is not the one that the drawing names (${change}): give that font's file for the drawn look.`,
    );
  const missing = [...new Set(placed.letters.filter((letter) => letter.isMissing).map((letter) => letter.text))];
  if (missing.length > 0)
    tell(
      'missing-letter',
      'error',
      `${missing.map(shown).join(', ')} of "${wordsOf(text)}" has no shape in the font and is left out: choose a font that has it.`,
    );
  if (placed.offPath.trim() !== '')
    tell(
      'text-off-path',
      'error',
      `${shown(placed.offPath)} of "${wordsOf(text)}" finds no room on its line and is left out: set it smaller or make the line longer.`,
    );
  const there = placed.letters.filter((letter) => !letter.isMissing);
  const letters = options.letters === 'joined' && options.weldMm > 0 ? weldLetters(there, options.weldMm) : there;
  const groups = options.letters === 'joined' ? byWord(letters) : letters.map((letter) => [letter]);
  const shapes: DrawnShape[] = [];
  const thinOnes: { readonly words: string; readonly at: Point }[] = [];
  for (const group of groups) {
    const contours = group.flatMap((letter) => letter.contours);
    if (contours.length === 0) continue;
    const words = group.map((letter) => letter.text).join('');
    const found = shapesFromContours(contours, 'nonzero').shapes;
    if (found.length > 1)
      tell(
        'loose-pieces',
        'note',
        `"${words}" falls into ${found.length} loose pieces (dots, accents, letters that do not touch): each becomes a part.`,
      );
    const thin = thinnestPlace(
      found.map((shape) => shapeToRegion(shape, FLATTEN_TOLERANCE_MM)),
      leastMm,
    );
    if (thin !== null) thinOnes.push({ words, at: thin.at });
    shapes.push({
      id: `${text.id}-${shapes.length + 1}`,
      name: words,
      layer: text.layer,
      contours,
      fillRule: 'nonzero',
      fill: text.fill,
      stroke: text.stroke,
      strokeWidthMm: text.strokeWidthMm,
      place: text.place,
    });
  }
  const [thin] = thinOnes;
  if (thin !== undefined) {
    const which = [...new Set(thinOnes.map(({ words }) => words))].map(shown).join(', ');
    const whose = groups.length === 1 ? which : `${which} of ${shown(wordsOf(text))}`;
    tell(
      'thin-stroke',
      'warning',
      `${whose}: strokes are thinner than ${leastMm} mm, first near ${thin.at.x.toFixed(0)}, ${thin.at.y.toFixed(0)} mm; they break easily: set them larger or choose a bolder font.`,
    );
  }
  if (shapes.length === 0)
    tell('text-without-letters', 'error', `"${wordsOf(text)}" of ${file} gave no letter to cut.`);
  return shapes;
}

/** @throws LetteringError `bad-font` for a font whose tables turn out to be broken when letters are made of them. */
function placedWith(text: DrawnText, fontOf: (run: TextRun) => LetterFont, scale = 1): PlacedText {
  let file = '';
  try {
    return placeText(
      text,
      (run) => {
        const font = fontOf(run);
        file = font.file;
        return font;
      },
      scale,
    );
  } catch (error) {
    if (error instanceof LetteringError) throw error;
    const why = error instanceof Error ? error.message : String(error);
    throw new LetteringError(
      'bad-font',
      `${file} cannot be used for ${shown(wordsOf(text))} (${why}): the file is broken, give another one of the font.`,
      file,
    );
  }
}

interface Room {
  readonly width: number;
  readonly height?: number | undefined;
}

function roomOf(text: DrawnText, { rooms }: LetteringOptions): Room | undefined {
  return rooms[text.id] ?? (text.name === null ? undefined : rooms[text.name]);
}

/** @throws LetteringError `too-long`. */
function assertScale(text: DrawnText, scale: number, room: Room | undefined): void {
  if (scale >= LEAST_SCALE || room === undefined) return;
  throw new LetteringError(
    'too-long',
    `"${wordsOf(text)}" does not go into the ${room.width} mm of "${text.name ?? text.id}" unless set at ${Math.round(scale * 100)} % of the drawn size: shorten it, break it into lines, or give it more room.`,
    text.id,
  );
}

function scaleTo(contours: DrawnShape['contours'], room: Room): number {
  const boxes = contours.map(contourBounds);
  if (boxes.length === 0) return 1;
  const width = Math.max(...boxes.map((box) => box.maxX)) - Math.min(...boxes.map((box) => box.minX));
  const height = Math.max(...boxes.map((box) => box.maxY)) - Math.min(...boxes.map((box) => box.minY));
  return Math.min(1, room.width / width, (room.height ?? Number.POSITIVE_INFINITY) / height);
}

function byWord(letters: readonly PlacedLetter[]): PlacedLetter[][] {
  const words = new Map<number, PlacedLetter[]>();
  for (const letter of letters) words.set(letter.word, [...(words.get(letter.word) ?? []), letter]);
  return [...words.values()];
}

function wordsOf(text: DrawnText): string {
  return text.runs.map((run) => run.text).join('');
}

function shown(words: string): string {
  return `"${words.length > 40 ? `${words.slice(0, 40)}...` : words}"`;
}
