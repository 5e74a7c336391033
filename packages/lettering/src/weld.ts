import { transformContour } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { IDENTITY } from '@underlap/geometry/matrix';
import type { Ring } from '@underlap/geometry/ring';
import type { PlacedLetter } from './place-text.ts';

/** Distance of the lines along which letters are compared, mm. */
const SCAN_STEP_MM = 0.2;

/**
 * Move the letters of each word together until every letter overlaps the one before it by the weld, mm, so that they become one part.
 * Letters that overlap by more stay; whole words are moved back to their middle.
 * @remarks The overlap is measured level with the letters, along horizontal lines; for text that stands level.
 */
export function weldLetters(letters: readonly PlacedLetter[], overlapMm: number): PlacedLetter[] {
  const out: PlacedLetter[] = [];
  for (let from = 0; from < letters.length; ) {
    let to = from;
    while (to < letters.length && letters[to]!.word === letters[from]!.word) to++;
    out.push(...weldWord(letters.slice(from, to), overlapMm));
    from = to;
  }
  return out;
}

function weldWord(word: readonly PlacedLetter[], overlapMm: number): PlacedLetter[] {
  const shifts: number[] = [];
  let shift = 0;
  let before: Profile | null = null;
  for (const letter of word) {
    if (letter.contours.length > 0) {
      const profile = profileOf(letter.contours.map((contour) => flattenContour(contour, FLATTEN_TOLERANCE_MM)));
      if (before !== null) {
        const gap = gapBetween(before, profile, shift);
        if (gap !== null && gap > -overlapMm) shift -= gap + overlapMm;
      }
      before = shifted(profile, shift);
    }
    shifts.push(shift);
  }
  const back = -shift / 2;
  return word.map((letter, index) => {
    const matrix = { ...IDENTITY, e: shifts[index]! + back };
    return { ...letter, contours: letter.contours.map((contour) => transformContour(contour, matrix)) };
  });
}

/** Leftmost and rightmost x of a letter on each scan line. */
type Profile = ReadonlyMap<number, { readonly left: number; readonly right: number }>;

function profileOf(rings: readonly Ring[]): Profile {
  const lines = new Map<number, { left: number; right: number }>();
  const note = (line: number, x: number) => {
    const there = lines.get(line);
    if (there === undefined) lines.set(line, { left: x, right: x });
    else {
      there.left = Math.min(there.left, x);
      there.right = Math.max(there.right, x);
    }
  };
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const [x0, y0, x1, y1] = [ring[i]!, ring[i + 1]!, ring[j]!, ring[j + 1]!];
      const first = Math.ceil(Math.min(y0, y1) / SCAN_STEP_MM);
      const last = Math.floor(Math.max(y0, y1) / SCAN_STEP_MM);
      for (let line = first; line <= last; line++) {
        const y = line * SCAN_STEP_MM;
        note(line, y1 === y0 ? x0 : x0 + ((x1 - x0) * (y - y0)) / (y1 - y0));
        if (y1 === y0) note(line, x1);
      }
    }
  }
  return lines;
}

function shifted(profile: Profile, by: number): Profile {
  return new Map([...profile].map(([line, { left, right }]) => [line, { left: left + by, right: right + by }]));
}

/** Least distance of the second letter, moved by `shift`, from the first; null when no line meets both. */
function gapBetween(first: Profile, second: Profile, shift: number): number | null {
  let least: number | null = null;
  for (const [line, { left }] of second) {
    const there = first.get(line);
    if (there === undefined) continue;
    const gap = left + shift - there.right;
    if (least === null || gap < least) least = gap;
  }
  return least;
}
