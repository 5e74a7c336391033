import { contourArea, contourEnd, contourLength, reversedContour } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import type { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import { CellBuckets } from '../cell-buckets.ts';

/** Outlines flatter than this (area over length squared; a circle has 0.08) are lines run to and fro, not parts. */
const FLATTEST = 1e-6;

const [NONE, SEVERAL] = [-1, -2];

/** A closed outline put together from open lines. */
export interface Chain {
  readonly contour: ContourView;
  /** Indices of the lines, in the order they are run through. */
  readonly members: readonly number[];
  /** Largest gap that was bridged, in drawing units. */
  readonly gap: number;
}

/**
 * Find open lines whose ends meet, two by two, all the way round. Where three or more ends meet it is not known which belong
 * together, so nothing is joined there; lines that do not come round stay as they are.
 * @param gap - largest distance between ends that meet, in drawing units.
 * @param packer - holds the segments of the outlines.
 * @remarks O(n) expected, by hashing the ends into cells of the gap's size; about 60 bytes for a line.
 */
export function chainLines(lines: readonly ContourView[], gap: number, packer: SegmentPacker): Chain[] {
  const partner = partnersOf(lines, Math.max(gap, 1e-9));
  const isDone = new Uint8Array(lines.length);
  const chains: Chain[] = [];
  for (let first = 0; first < lines.length; first++) {
    if (isDone[first]) continue;
    const length = lengthOfRound(first, partner, isDone);
    if (length < 2) continue;
    const chain = joined(roundFrom(first, length, partner), lines, packer);
    if (Math.abs(contourArea(chain.contour)) > FLATTEST * contourLength(chain.contour) ** 2) chains.push(chain);
  }
  return chains;
}

/** For every end (2 i the start of line i, 2 i + 1 its end) the only other end near it; none when there are more. */
function partnersOf(lines: readonly ContourView[], reach: number): Int32Array {
  const count = 2 * lines.length;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  lines.forEach((line, index) => {
    const end = contourEnd(line);
    x[2 * index] = line.start.x;
    y[2 * index] = line.start.y;
    x[2 * index + 1] = end.x;
    y[2 * index + 1] = end.y;
  });
  const buckets = new CellBuckets(count);
  const cellOf = (value: number): number => Math.floor(value / reach);
  for (let end = 0; end < count; end++) buckets.add(end, buckets.bucketOf(cellOf(x[end]!), cellOf(y[end]!)));
  const nearTo = (index: number): number => {
    const [atX, atY] = [x[index]!, y[index]!];
    const [column, row] = [cellOf(atX), cellOf(atY)];
    let found = NONE;
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        const bucket = buckets.bucketOf(column + dx, row + dy);
        for (let other = buckets.first(bucket); other !== NONE; other = buckets.after(other)) {
          // Two of the nine cells may share a bucket.
          if (other === index || other === found) continue;
          if (Math.hypot(x[other]! - atX, y[other]! - atY) > reach) continue;
          if (found !== NONE) return SEVERAL;
          found = other;
        }
      }
    }
    return found;
  };
  const nearest = new Int32Array(count);
  for (let end = 0; end < count; end++) nearest[end] = nearTo(end);
  return nearest.map((other, end) => (other >= 0 && nearest[other] === end ? other : NONE));
}

/** How many lines the way from the first one back to it runs through; 0 when it does not come round. */
function lengthOfRound(first: number, partner: Int32Array, isDone: Uint8Array): number {
  let entry = 2 * first;
  for (let length = 1; ; length++) {
    isDone[entry >> 1] = 1;
    const next = partner[entry ^ 1]!;
    if (next === 2 * first) return length;
    // Lines met before belong to a way that did not come round.
    if (next === NONE || isDone[next >> 1]) return 0;
    entry = next;
  }
}

/** The ends at which the lines are entered on the way round. */
function roundFrom(first: number, length: number, partner: Int32Array): number[] {
  const run = [2 * first];
  while (run.length < length) run.push(partner[run.at(-1)! ^ 1]!);
  return run;
}

function joined(run: readonly number[], lines: readonly ContourView[], packer: SegmentPacker): Chain {
  const start = entryOf(run[0]!, lines);
  let at = start;
  let gap = 0;
  const bridge = (to: Point): void => {
    const width = Math.hypot(to.x - at.x, to.y - at.y);
    if (width > 0) packer.addLine(to.x, to.y);
    gap = Math.max(gap, width);
  };
  for (const entry of run) {
    const line = lines[entry >> 1]!;
    const piece = entry % 2 === 0 ? line : reversedContour(line);
    bridge(piece.start);
    for (const segment of piece.segments) packer.add(segment);
    at = contourEnd(piece);
  }
  bridge(start);
  const members = run.map((entry) => entry >> 1);
  return { contour: { start, segments: packer.take(), closed: true }, members, gap };
}

function entryOf(entry: number, lines: readonly ContourView[]): Point {
  const line = lines[entry >> 1]!;
  return entry % 2 === 0 ? line.start : contourEnd(line);
}
