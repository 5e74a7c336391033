import { contourArea, contourEnd, contourLength, reversedContour } from '@underlap/geometry/contour';
import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';

/** Outlines flatter than this (area over length squared; a circle has 0.08) are lines run to and fro, not parts. */
const FLATTEST = 1e-6;

/** A closed outline put together from open lines. */
export interface Chain {
  readonly contour: Contour;
  /** Indices of the lines, in the order they are run through. */
  readonly members: readonly number[];
  /** Largest gap that was bridged, in drawing units. */
  readonly gap: number;
}

/**
 * Find open lines whose ends meet, two by two, all the way round. Where three or more ends meet it is not known which belong
 * together, so nothing is joined there; lines that do not come round stay as they are.
 * @param gap - largest distance between ends that meet, in drawing units.
 * @remarks O(n) expected, by hashing the ends into cells of the gap's size.
 */
export function chainLines(lines: readonly Contour[], gap: number): Chain[] {
  const reach = Math.max(gap, 1e-9);
  const ends: Point[] = lines.flatMap((line) => [line.start, contourEnd(line)]);
  const partner = partnersOf(ends, reach);
  const isDone = new Set<number>();
  const chains: Chain[] = [];
  for (let first = 0; first < lines.length; first++) {
    if (isDone.has(first)) continue;
    const { run, comesRound } = follow(first, partner, isDone);
    if (!comesRound || run.length < 2) continue;
    const chain = joined(run, lines);
    if (Math.abs(contourArea(chain.contour)) > FLATTEST * contourLength(chain.contour) ** 2) chains.push(chain);
  }
  return chains;
}

/** For every end the only other end near it, or null when there is none or more than one. */
function partnersOf(ends: readonly Point[], reach: number): (number | null)[] {
  const cells = new Map<string, number[]>();
  const cellOf = (value: number): number => Math.floor(value / reach);
  ends.forEach((end, index) => {
    const key = `${cellOf(end.x)},${cellOf(end.y)}`;
    const list = cells.get(key);
    if (list === undefined) cells.set(key, [index]);
    else list.push(index);
  });
  const nearTo = (index: number): number | null => {
    const { x, y } = ends[index]!;
    let found: number | null = null;
    for (let column = cellOf(x) - 1; column <= cellOf(x) + 1; column++) {
      for (let row = cellOf(y) - 1; row <= cellOf(y) + 1; row++) {
        for (const other of cells.get(`${column},${row}`) ?? []) {
          const there = ends[other]!;
          if (other === index || Math.hypot(there.x - x, there.y - y) > reach) continue;
          if (found !== null) return null;
          found = other;
        }
      }
    }
    return found;
  };
  const nearest = ends.map((_, index) => nearTo(index));
  return nearest.map((other, index) => (other !== null && nearest[other] === index ? other : null));
}

/** The ends at which lines are entered on the way from the first one, and whether the way leads back to it. */
function follow(
  first: number,
  partner: readonly (number | null)[],
  isDone: Set<number>,
): { run: number[]; comesRound: boolean } {
  const run: number[] = [];
  let entry = 2 * first;
  for (;;) {
    run.push(entry);
    isDone.add(entry >> 1);
    const next = partner[entry ^ 1];
    if (next === 2 * first) return { run, comesRound: true };
    // Lines met before belong to a way that did not come round.
    if (next === null || next === undefined || isDone.has(next >> 1)) return { run, comesRound: false };
    entry = next;
  }
}

function joined(run: readonly number[], lines: readonly Contour[]): Chain {
  const pieces = run.map((entry) => (entry % 2 === 0 ? lines[entry >> 1]! : reversedContour(lines[entry >> 1]!)));
  const { start } = pieces[0]!;
  const segments: Segment[] = [];
  let at = start;
  let gap = 0;
  const bridge = (to: Point): void => {
    const width = Math.hypot(to.x - at.x, to.y - at.y);
    if (width > 0) segments.push({ kind: 'line', to });
    gap = Math.max(gap, width);
  };
  for (const piece of pieces) {
    bridge(piece.start);
    for (const segment of piece.segments) segments.push(segment);
    at = contourEnd(piece);
  }
  bridge(start);
  return { contour: { start, segments, closed: true }, members: run.map((entry) => entry >> 1), gap };
}
