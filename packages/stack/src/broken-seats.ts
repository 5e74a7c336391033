import { clipPolyline, polylineLength } from '@underlap/geometry/clip-polyline';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import type { MatchRules, RingMatch } from './ring-match.ts';
import type { Sign } from './sign.ts';
import { type Ground, matchStretches, type Stretch } from './stretch-match.ts';

/** A line on a part that may be the seen rest of an upper part's outline. */
export interface MarkStretch extends Stretch {
  readonly markId: string;
}

/** All such lines of one part. */
export interface BrokenGround extends Ground {
  readonly on: number;
  readonly stretches: readonly MarkStretch[];
}

/** An upper part that what is drawn shows the place of. */
export interface BrokenMatch {
  readonly part: number;
  readonly on: number;
  readonly markIds: readonly string[];
  readonly match: RingMatch;
}

/** Shorter lines are ticks and letters, mm. */
const LEAST_STRETCH_MM = 8;
/** Most pairs of part and line that are compared: a map engraved on a part is no heap of guides. */
const MOST_LINES = 60;

/**
 * Lines that guides leave when they are clipped at the edge of the part they lie on, or left open there.
 * @param isTaken - marks that already show where a part goes.
 */
export function brokenGrounds(sign: Sign, isTaken: (markId: string) => boolean, rules: MatchRules): BrokenGround[] {
  return sign.parts.flatMap((part, on): BrokenGround[] => {
    const open = part.marks.filter((mark) => !isTaken(mark.id));
    if (open.length === 0) return [];
    const core = offsetRegions([part.region], -(rules.toleranceMm + rules.largestInsetMm));
    const stretches = open.flatMap((mark) =>
      mark.contours.flatMap((contour) => {
        const line = flattenContour(contour, FLATTEN_TOLERANCE_MM);
        const inside = clipPolyline(line, contour.closed, core, 'inside');
        // A closed outline that lies whole on the part was compared as a whole.
        if (contour.closed && inside.length === 1 && isWhole(inside[0]!)) return [];
        return inside.map((piece) => ({ line: piece, length: polylineLength(piece), markId: mark.id }));
      }),
    );
    const long = stretches.filter(({ length }) => length >= LEAST_STRETCH_MM);
    return long.length === 0 || long.length > MOST_LINES ? [] : [{ on, core, stretches: long }];
  });
}

function isWhole(line: Float64Array): boolean {
  return line[0] === line[line.length - 2] && line[1] === line[line.length - 1];
}

/**
 * Parts that fit what is drawn of their outlines, best first; each line stands for one part only.
 * @param parts - those that are still without a place, by index.
 * @param lower - what every placed part lies on; nothing comes to lie on itself.
 * @returns the matches, and the parts whose lines leave open where along them they lie.
 * @remarks Rounds over parts x grounds, until one finds nothing: equal parts want the same line first.
 */
export function brokenMatches(
  sign: Sign,
  parts: readonly number[],
  grounds: readonly BrokenGround[],
  lower: ReadonlyMap<number, number>,
  rules: MatchRules,
): { readonly matches: readonly BrokenMatch[]; readonly loose: ReadonlySet<number> } {
  const matches: BrokenMatch[] = [];
  const loose = new Set<number>();
  const places = new Map(lower);
  const used = new Set<MarkStretch>();
  for (;;) {
    const left = parts.filter((part) => !matches.some((match) => match.part === part));
    const found = grounds.flatMap((ground) => {
      const stretches = ground.stretches.filter((stretch) => !used.has(stretch));
      if (stretches.length === 0) return [];
      return left.flatMap((part) => {
        if (part === ground.on) return [];
        const result = matchStretches(sign.parts[part]!.region.outer, stretches, ground, rules);
        if (result.kind === 'loose') loose.add(part);
        if (result.kind !== 'found') return [];
        return [
          { part, on: ground.on, match: result.match, lines: result.stretches.map((index) => stretches[index]!) },
        ];
      });
    });
    found.sort((first, second) => first.match.errorMm - second.match.errorMm || first.part - second.part);
    const before = matches.length;
    for (const { part, on, match, lines } of found) {
      const isTaken = lines.some((line) => used.has(line)) || matches.some((other) => other.part === part);
      if (isTaken || liesOn(on, part, places)) continue;
      matches.push({ part, on, match, markIds: [...new Set(lines.map(({ markId }) => markId))] });
      places.set(part, on);
      for (const line of lines) used.add(line);
    }
    if (matches.length === before) break;
  }
  for (const { part } of matches) loose.delete(part);
  return { matches, loose };
}

/** Does `part` lie, directly or not, on `ground`, or is it that? */
export function liesOn(part: number, ground: number, lower: ReadonlyMap<number, number>): boolean {
  let current: number | undefined = part;
  while (current !== undefined) {
    if (current === ground) return true;
    current = lower.get(current);
  }
  return false;
}
