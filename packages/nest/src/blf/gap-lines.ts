import type { Profile } from '../shape/profile.ts';
import { columnAt, type Standing } from './climb.ts';

/** Distance of the lines across the board on which free gaps are kept, mm; no wider than the narrowest column. */
const LINE_MM = 0.5;
/** Places of a profile that are held against the lines. */
const PROBES = 12;

/**
 * For lines across the board the largest free gap, so that a place whose column is taller than any gap is refused without
 * looking at pieces. Never refuses a free place: a line is only asked about the column that it runs through.
 */
export class GapLines {
  private readonly gaps: Float64Array;

  constructor(
    length: number,
    private readonly low: number,
    private readonly high: number,
  ) {
    this.gaps = new Float64Array(Math.max(1, Math.ceil(length / LINE_MM))).fill(high - low);
  }

  /** Recompute the lines that a new standing profile lies on. @param standing - all of them. */
  refresh(added: Standing, standing: readonly Standing[]): void {
    const first = Math.max(0, Math.floor((added.profile.minX + added.x) / LINE_MM));
    const last = Math.min(this.gaps.length - 1, Math.ceil((added.profile.maxX + added.x) / LINE_MM));
    const near = standing.filter(
      (s) => s.x + s.profile.maxX > first * LINE_MM && s.x + s.profile.minX < (last + 1) * LINE_MM,
    );
    const spans: number[] = [];
    for (let line = first; line <= last; line++) {
      spans.length = 0;
      const x = (line + 0.5) * LINE_MM;
      for (const { profile, x: px, y } of near) {
        const column = columnAt(profile, x - px);
        if (column < 0) continue;
        for (let s = profile.from[column]!; s < profile.from[column + 1]!; s += 2) {
          insertSpan(spans, profile.spans[s]! + y, profile.spans[s + 1]! + y);
        }
      }
      let at = this.low;
      let gap = 0;
      for (let s = 0; s < spans.length; s += 2) {
        if (spans[s]! - at > gap) gap = spans[s]! - at;
        if (spans[s + 1]! > at) at = spans[s + 1]!;
      }
      this.gaps[line] = Math.max(gap, this.high - at);
    }
  }

  /** Could a profile stand at x as far as its tallest columns are concerned? */
  mayHold(probes: Probes, x: number): boolean {
    for (let i = 0; i < probes.height.length; i++) {
      // the line nearest the column's middle
      const line = Math.round((x + probes.middle[i]!) / LINE_MM - 0.5);
      const gap = this.gaps[line];
      if (gap !== undefined && gap < probes.height[i]! - 1e-6) return false;
    }
    return true;
  }
}

/** The tallest span of some columns of a profile, and where their middles are. */
export interface Probes {
  readonly middle: Float64Array;
  readonly height: Float64Array;
}

/** Tallest column of each of a dozen stretches of a profile; columns too narrow to be sure of a line are left out. */
export function probesOf(profile: Profile): Probes {
  const middle: number[] = [];
  const height: number[] = [];
  const width = (profile.maxX - profile.minX) / PROBES;
  for (let k = 0; k < PROBES; k++) {
    let best = -1;
    let tallest = 0;
    for (let i = 0; i < profile.columns; i++) {
      const x = (profile.edges[i]! + profile.edges[i + 1]!) / 2;
      if (x < profile.minX + k * width || x >= profile.minX + (k + 1) * width) continue;
      if (profile.edges[i + 1]! - profile.edges[i]! < LINE_MM * 0.999) continue;
      for (let s = profile.from[i]!; s < profile.from[i + 1]!; s += 2) {
        const h = profile.spans[s + 1]! - profile.spans[s]!;
        if (h > tallest) {
          tallest = h;
          best = i;
        }
      }
    }
    if (best < 0) continue;
    middle.push((profile.edges[best]! + profile.edges[best + 1]!) / 2);
    height.push(tallest);
  }
  return { middle: Float64Array.from(middle), height: Float64Array.from(height) };
}

/** Keep spans sorted by their lower end; a handful per line. */
function insertSpan(spans: number[], lo: number, hi: number): void {
  let i = spans.length;
  spans.push(lo, hi);
  while (i > 0 && spans[i - 2]! > lo) {
    spans[i] = spans[i - 2]!;
    spans[i + 1] = spans[i - 1]!;
    i -= 2;
  }
  spans[i] = lo;
  spans[i + 1] = hi;
}
