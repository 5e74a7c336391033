import { readFileSync } from 'node:fs';
import { ArtworkError } from '@underlap/artwork/error';
import { readArtwork } from '@underlap/artwork/read-artwork';
import type { ContourView, Segment } from '@underlap/geometry/curve';
import seedrandom from 'seedrandom';
import { iconCorpus } from './icon-corpus.ts';
import { randomSvg } from './random-svg.ts';

const NUMBERS = [
  '1e308',
  '-1e308',
  'NaN',
  'Infinity',
  '',
  '-0',
  '1e-320',
  '0',
  '1e9',
  '-1',
  '0.5.5',
  '9'.repeat(400),
  '1e',
  '--3',
];
const PIECES = [
  '<g>',
  '</g>',
  '/>',
  '"',
  '<',
  '>',
  '&amp;',
  '&x;',
  '<!--',
  '-->',
  '<![CDATA[',
  ']]>',
  '<use href="#one"/>',
  'M',
  'z',
  'A5 5 0 01',
  'e',
  '\0',
  '\uffff',
  '😀',
  ' transform="rotate(1e300)"',
  ' style="fill:url(#s)"',
  '<svg viewBox="0 0 0 1">',
  '<style>*{display:none}</style>',
  ' width="1e-9mm"',
  ' id="one"',
];

/** Drawings that are spoilt: icons, random drawings with every feature, and the project's own samples. */
export function svgSources(): readonly string[] {
  const icons = iconCorpus().filter((_, i) => i % 97 === 0);
  const own = ['harbour-sign', 'harbour-spread', 'round-sign'].map((name) =>
    readFileSync(new URL(`../../samples/${name}.svg`, import.meta.url), 'utf8'),
  );
  return [
    ...icons.map((file) => file.read()),
    ...own,
    ...Array.from({ length: 40 }, (_, i) => randomSvg(`spoil-${i}`)),
  ];
}

/** The same spoilt drawing for the same seed: one to six random edits of a drawing that was sound. */
export function spoiltSvg(seed: string, drawings: readonly string[]): string {
  const random = seedrandom(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  let text = pick(drawings);
  const edits = 1 + Math.floor(random() * 6);
  for (let i = 0; i < edits; i++) {
    const at = Math.floor(random() * text.length);
    const length = Math.floor(random() ** 3 * 60);
    switch (Math.floor(random() * 7)) {
      case 0:
        text = text.slice(0, at) + text.slice(at + length);
        break;
      case 1:
        text = text.slice(0, at) + pick(PIECES) + text.slice(at);
        break;
      case 2:
        text =
          text.slice(0, at) +
          text.slice(at, at + length).repeat(1 + Math.floor(random() * 4)) +
          text.slice(at + length);
        break;
      case 3:
        text = text.slice(0, at) + String.fromCharCode(Math.floor(random() * 128)) + text.slice(at + 1);
        break;
      case 4: {
        // One of the numbers becomes an extreme.
        const rest = text.slice(at).replace(/-?\d+\.?\d*/, pick(NUMBERS));
        text = text.slice(0, at) + rest;
        break;
      }
      case 5:
        text = text.slice(0, at);
        break;
      default: {
        const other = pick(drawings);
        const from = Math.floor(random() * other.length);
        text = text.slice(0, at) + other.slice(from, from + length * 4) + text.slice(at);
      }
    }
  }
  return text;
}

/** What became of a spoilt drawing; anything but an ArtworkError passes through. */
export function outcomeOf(text: string): 'read' | 'refused' {
  try {
    for (const repair of [true, false]) {
      const { shapes } = readArtwork(text, { name: 'spoilt', repair });
      if (shapes.length === 0) throw new Error('an empty drawing was not refused');
      for (const shape of shapes) for (const contour of shape.contours) assertSound(contour, shape.id);
    }
    return 'read';
  } catch (error) {
    if (!(error instanceof ArtworkError)) throw error;
    if (error.code === 'internal' || error.message.length > 600) throw error;
    return 'refused';
  }
}

function assertSound(contour: ContourView, id: string): void {
  const numbers = [contour.start.x, contour.start.y, ...[...contour.segments].flatMap(numbersOf)];
  if (!numbers.every(Number.isFinite)) throw new Error(`${id} has a number that is not finite`);
  const end = contour.segments.at(-1)?.to;
  if (end === undefined) throw new Error(`${id} has a contour without segments`);
  if (contour.closed && (end.x !== contour.start.x || end.y !== contour.start.y)) {
    throw new Error(`${id} is closed but does not end on its start`);
  }
}

function numbersOf(segment: Segment): number[] {
  const { kind, to } = segment;
  if (kind === 'line') return [to.x, to.y];
  if (kind === 'cubic') return [to.x, to.y, segment.c1.x, segment.c1.y, segment.c2.x, segment.c2.y];
  const rest = kind === 'arc' ? [segment.radius] : [segment.rx, segment.ry, segment.axisTurn, segment.from];
  return [to.x, to.y, segment.centre.x, segment.centre.y, segment.sweep, ...rest];
}

/** Runs so many seeds and tells how many were read and refused, and the slowest one's CPU time in seconds. */
export function spoilRun(prefix: string, count: number): { read: number; refused: number; slowest: number } {
  const drawings = svgSources();
  const result = { read: 0, refused: 0, slowest: 0 };
  for (let i = 0; i < count; i++) {
    const seed = `${prefix}-${i}`;
    const text = spoiltSvg(seed, drawings);
    const start = process.cpuUsage();
    try {
      result[outcomeOf(text)]++;
    } catch (error) {
      throw new Error(`seed ${seed}: ${String(error)}`, { cause: error });
    }
    const { user, system } = process.cpuUsage(start);
    result.slowest = Math.max(result.slowest, (user + system) / 1e6);
  }
  return result;
}
