import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import type { TextRun } from '../drawing.ts';
import { planeOf } from './curve-entities.ts';
import type { EntityTags } from './entity-tags.ts';
import { plainWords, type StyledWords, styledLines } from './text-codes.ts';

/** Words and where they stand. */
export interface TextReading {
  readonly runs: readonly TextRun[];
  /** From the text's own frame (y down, origin at its anchor) to block or model coordinates (y up). */
  readonly matrix: Matrix;
  /** What a block calls this place, for texts that fill it. */
  readonly name: string | null;
  /** Told although the text is used; null when all is well. */
  readonly warning: string | null;
}

/** Letters of one text; more is a book. */
const MOST_CHARACTERS = 5_000;

/** Lines of a text follow one another by five thirds of its height (DXF reference, MTEXT: 'percentage of default (3-on-5) line spacing'). */
const LINE_SPACING = 5 / 3;

/** What hangs below the line, as a share of the height of capitals (value from memory). */
const BELOW_LINE = 1 / 3;

/** A capital takes about this share of its height in width: only to guess whether a text would have been broken (value from memory). */
const GUESSED_WIDTH = 0.75;

const ANCHORS = ['start', 'middle', 'end'] as const;

/**
 * TEXT, ATTRIB and MTEXT with their words, height, place and turn; heights are those of capitals.
 * @returns `empty` for a text without words; `unreadable` in a tilted plane or of a height that cannot be.
 * @throws BadNumber when a number cannot be used.
 * @remarks Groups and meanings: DXF reference, ENTITIES section.
 */
export function readTextEntity(tags: EntityTags): TextReading | 'empty' | 'unreadable' {
  const height = tags.number(40, 0);
  const plane = planeOf(tags);
  if (rawText(tags).trim() === '') return 'empty';
  if (!(height > 0) || plane === null) return 'unreadable';
  const reading = tags.type === 'MTEXT' ? ofSeveralLines(tags, height) : ofOneLine(tags, height);
  if (reading === null) return 'empty';
  if (plane === 'front') return reading;
  return { ...reading, matrix: multiply({ ...IDENTITY, a: -1 }, reading.matrix) };
}

function ofOneLine(tags: EntityTags, height: number): TextReading | null {
  const text = plainWords(rawText(tags)).slice(0, MOST_CHARACTERS);
  if (text.trim() === '') return null;
  const across = tags.integer(72, 0);
  const up = tags.integer(tags.type === 'ATTRIB' ? 74 : 73, 0);
  const hasSecond = (across !== 0 || up !== 0) && tags.has(11);
  const first = { x: tags.number(10, 0), y: tags.number(20, 0) };
  const second = { x: tags.number(11, 0), y: tags.number(21, 0) };
  // Between two points: as long as they are apart, in height too (3) or in width alone (5).
  const isBetween = hasSecond && (across === 3 || across === 5);
  const at = hasSecond && !isBetween ? second : first;
  const turn = isBetween ? Math.atan2(second.y - first.y, second.x - first.x) : (tags.number(50, 0) * Math.PI) / 180;
  const flags = tags.integer(71, 0);
  const slant = Math.tan((tags.number(51, 0) * Math.PI) / 180);
  const own: Matrix = {
    a: tags.number(41, 1) * ((flags & 2) === 0 ? 1 : -1),
    b: 0,
    c: Math.abs(slant) < 10 ? -slant : 0,
    d: (flags & 4) === 0 ? 1 : -1,
    e: 0,
    f: 0,
  };
  const isMiddle = across === 4;
  const baseline = up === 3 ? height : isMiddle || up === 2 ? height / 2 : up === 1 ? -BELOW_LINE * height : 0;
  const anchor = isBetween ? 'start' : isMiddle ? 'middle' : (ANCHORS[across] ?? 'start');
  const stretch = isBetween
    ? {
        group: 0,
        length: Math.hypot(second.x - first.x, second.y - first.y),
        by: across === 3 ? ('size' as const) : ('glyphs' as const),
      }
    : null;
  const words = { text, family: null, bold: false, italic: false, scale: 1 };
  const run = { ...runOf(words, height, anchor), x: [0], y: [baseline], stretch };
  return { runs: [run], matrix: multiply(placed(at, turn), own), name: nameOf(tags), warning: null };
}

function ofSeveralLines(tags: EntityTags, height: number): TextReading | null {
  const lines = styledLines(rawText(tags).slice(0, MOST_CHARACTERS));
  if (lines.every((line) => line.every(({ text }) => text.trim() === ''))) return null;
  const attached = Math.min(9, Math.max(1, tags.integer(71, 1)));
  const anchor = ANCHORS[(attached - 1) % 3]!;
  const row = Math.floor((attached - 1) / 3);
  const step = LINE_SPACING * height * Math.max(0.25, Math.min(4, tags.number(44, 1)));
  const below = (lines.length - 1) * step;
  const first = row === 0 ? height : row === 1 ? (height - below) / 2 : -below;
  const runs = lines.flatMap((line, index) =>
    line.map((words, part) => ({
      ...runOf(words, height, anchor),
      ...(part === 0 ? { x: [0], y: [first + index * step] } : {}),
    })),
  );
  const turn = tags.has(11) ? Math.atan2(tags.number(21, 0), tags.number(11, 1)) : (tags.number(50, 0) * Math.PI) / 180;
  const width = tags.number(41, 0);
  const longest = Math.max(...lines.map((line) => line.reduce((sum, { text, scale }) => sum + text.length * scale, 0)));
  const warning =
    width > 0 && longest * height * GUESSED_WIDTH > width
      ? 'its lines are broken only where the drawing breaks them, not at the width of its frame: look at where its letters stand'
      : null;
  return { runs, matrix: placed({ x: tags.number(10, 0), y: tags.number(20, 0) }, turn), name: null, warning };
}

/** Long texts come in several groups, the last one of them as group 1. */
function rawText(tags: EntityTags): string {
  if (tags.type !== 'MTEXT') return tags.all.find(({ code }) => code === 1)?.value ?? '';
  return tags.all
    .filter(({ code }) => code === 3 || code === 1)
    .map(({ value }) => value)
    .join('');
}

function nameOf(tags: EntityTags): string | null {
  return tags.type === 'ATTRIB' ? tags.text(2, '') || null : null;
}

function runOf(words: StyledWords, height: number, anchor: TextRun['anchor']): TextRun {
  return {
    text: words.text,
    ...{ x: [], y: [], dx: [], dy: [], rotate: [] },
    families: words.family === null ? [] : [words.family],
    size: height * words.scale,
    sizeOf: 'capitals',
    weight: words.bold ? 700 : 400,
    italic: words.italic,
    ...{ letterSpacing: 0, wordSpacing: 0 },
    anchor,
    direction: 'auto',
    path: null,
    stretch: null,
  };
}

/** A frame with y down, turned and moved into one with y up. */
function placed({ x, y }: { readonly x: number; readonly y: number }, turn: number): Matrix {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return { a: cos, b: sin, c: sin, d: -cos, e: x, f: y };
}
