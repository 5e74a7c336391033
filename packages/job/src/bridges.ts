import { contourLength } from '@underlap/geometry/contour';
import type { ContourSpan } from '@underlap/geometry/contour-gaps';
import type { Contour } from '@underlap/geometry/curve';
import { distancePointToSegment } from '@underlap/geometry/distance';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import type { Ring } from '@underlap/geometry/ring';
import type { Job } from './document.ts';

/** An outline may leave the straight line across a bridge by this, mm: more would show when it is sanded off. */
export const BRIDGE_SAG_MM = 0.02;

/** Wood on both sides of a bridge in which the outline turns no corner, mm, and at least the width of the bridge. */
const GUARD_MM = 2;

/** An outline that turns more than this beside a bridge is a corner there, degrees. */
const MOST_TURN_DEG = 20;

/** Bridges keep this far from every seam, mm, and at least three widths: knobs and their sockets stay clean. */
const SEAM_CLEAR_MM = 5;

/** A bridge takes no more than this share of the way to the next: a small piece gets fewer. */
const MOST_SHARE = 1 / 6;

/** Places are tried in steps of this, mm. */
const STEP_MM = 0.5;

/**
 * Where the outline of a piece is left uncut, so that it stays in its board: evenly round it, on nearly straight edges, away from
 * corners and from seams.
 * @param outer - the line the beam follows, closed.
 * @param seams - paths of the seams of its part, in the same frame.
 * @returns stretches along `outer`, rising; fewer than asked where there is no place, none where there is none at all.
 * @remarks O(length / step x (chords near + chords of seams)).
 */
export function bridgesOf(
  outer: Contour,
  seams: readonly Contour[],
  { number, width }: Job['bridges'],
): readonly ContourSpan[] {
  const length = contourLength(outer);
  const count = Math.min(number, Math.floor((length * MOST_SHARE) / width));
  if (count === 0) return [];
  const edge = new Edge(flattenContour(outer, FLATTEN_TOLERANCE_MM), length);
  const lines = seams.map((seam) => flattenContour(seam, FLATTEN_TOLERANCE_MM));
  const clear = Math.max(SEAM_CLEAR_MM, 3 * width);
  const guard = Math.max(GUARD_MM, width);
  const isFree = (s: number): boolean =>
    s - width / 2 > 0 &&
    s + width / 2 < length &&
    edge.sag(s - width / 2, s + width / 2) <= BRIDGE_SAG_MM &&
    edge.turnDeg(s - width / 2 - guard, s + width / 2 + guard) <= MOST_TURN_DEG &&
    lines.every((line) => distanceTo(line, edge.at(s)) >= clear);
  const share = length / count;
  const spans: ContourSpan[] = [];
  for (let k = 0; k < count; k++) {
    const last = spans.at(-1)?.to ?? (spans[0] === undefined ? 0 : spans[0].from);
    const place = nearest((k + 0.5) * share, share / 2 - width, (s) => s - width / 2 >= last + width && isFree(s));
    if (place !== null) spans.push({ from: place - width / 2, to: place + width / 2 });
  }
  return spans;
}

/** The place nearest to a wanted one that will do, in steps to both sides. */
function nearest(wanted: number, reach: number, willDo: (s: number) => boolean): number | null {
  for (let off = 0; off <= reach; off += STEP_MM) {
    if (willDo(wanted + off)) return wanted + off;
    if (willDo(wanted - off)) return wanted - off;
  }
  return null;
}

function distanceTo(line: Ring, { x, y }: { readonly x: number; readonly y: number }): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 3 < line.length; i += 2)
    least = Math.min(least, distancePointToSegment(x, y, line[i]!, line[i + 1]!, line[i + 2]!, line[i + 3]!));
  return least;
}

/** A closed outline in chords, walked by length. */
class Edge {
  /** Length along the outline at every vertex, scaled so that the whole is the true length. */
  private readonly lengths: Float64Array;
  private readonly count: number;

  constructor(
    private readonly ring: Ring,
    private readonly whole: number,
  ) {
    this.count = ring.length / 2;
    this.lengths = new Float64Array(this.count + 1);
    for (let i = 0; i < this.count; i++) {
      const j = (i + 1) % this.count;
      const chord = Math.hypot(ring[2 * j]! - ring[2 * i]!, ring[2 * j + 1]! - ring[2 * i + 1]!);
      this.lengths[i + 1] = this.lengths[i]! + chord;
    }
    const scale = whole / this.lengths[this.count]!;
    for (let i = 0; i <= this.count; i++) this.lengths[i] = this.lengths[i]! * scale;
  }

  at(s: number): { x: number; y: number } {
    const along = ((s % this.whole) + this.whole) % this.whole;
    const i = this.chordAt(along);
    const j = (i + 1) % this.count;
    const chord = this.lengths[i + 1]! - this.lengths[i]!;
    const u = chord === 0 ? 0 : (along - this.lengths[i]!) / chord;
    const { ring } = this;
    return {
      x: ring[2 * i]! + u * (ring[2 * j]! - ring[2 * i]!),
      y: ring[2 * i + 1]! + u * (ring[2 * j + 1]! - ring[2 * i + 1]!),
    };
  }

  /** How far the outline between two places leaves the straight line between them, mm. */
  sag(from: number, to: number): number {
    const a = this.at(from);
    const b = this.at(to);
    const samples = Array.from({ length: 7 }, (_, k) => this.at(from + ((k + 1) / 8) * (to - from)));
    return Math.max(...samples.map(({ x, y }) => distancePointToSegment(x, y, a.x, a.y, b.x, b.y)));
  }

  /** All turns between two places together, degrees. */
  turnDeg(from: number, to: number): number {
    const steps = Math.max(8, Math.ceil((to - from) / 0.25));
    let turn = 0;
    let before: number | null = null;
    let last = this.at(from);
    for (let k = 1; k <= steps; k++) {
      const next = this.at(from + (k / steps) * (to - from));
      const angle = Math.atan2(next.y - last.y, next.x - last.x);
      if (before !== null) turn += Math.abs(Math.atan2(Math.sin(angle - before), Math.cos(angle - before)));
      before = angle;
      last = next;
    }
    return (turn * 180) / Math.PI;
  }

  private chordAt(s: number): number {
    let [low, high] = [0, this.count - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.lengths[middle]! <= s) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}
