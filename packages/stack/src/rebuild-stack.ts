import type { Complaint } from '@underlap/artwork/drawing';
import { transformContour, transformShape } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, flattenContour, shapeToRegion } from '@underlap/geometry/flatten';
import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import { regionArea } from '@underlap/geometry/region';
import { type Ring, ringArea } from '@underlap/geometry/ring';
import { brokenGrounds, brokenMatches, liesOn } from './broken-seats.ts';
import { complain } from './draft.ts';
import { shareInside } from './outline.ts';
import { extentOf } from './recognise.ts';
import { DEFAULT_MATCH_RULES, type MatchRules, matchRing, type RingMatch } from './ring-match.ts';
import type { Part, Sign, StackMatch } from './sign.ts';

/** Differences of fit below this do not tell two equal parts apart, mm. */
const SAME_FIT_MM = 0.05;

/** A closed mark on a part, by index; where an upper part may go. */
interface Seat {
  readonly on: number;
  readonly markId: string;
  /** Place of its mark among all marks of the drawing. */
  readonly order: number;
  readonly ring: Ring;
}

interface Candidate {
  readonly part: number;
  readonly seat: number;
  readonly match: RingMatch;
  /** What is left between the two beyond the inset that the drawing's outlines have in common, in steps that tell. */
  readonly rank: number;
}

/**
 * Rebuild the assembled stack of a spread drawing: parts are matched to the score outlines that show where they go.
 * @param sign - from `recogniseParts`; a stacked one is returned as it is.
 * @returns a sign whose matched parts lie in the frame of the part at the bottom of their stack, bottom first; parts that were
 * matched to nothing and carry nothing keep their drawn place and cover nothing.
 * @remarks Parts x seats pairs, most of them sorted out by area; equal parts are handed out in drawing order, so the same
 * drawing always gives the same stack.
 */
export function rebuildStack(sign: Sign, rules: MatchRules = DEFAULT_MATCH_RULES): Sign {
  if (sign.mode === 'stacked') return sign;
  const seats = seatsOf(sign);
  const candidates = candidatesFor(sign, seats, rules);
  const whole = assign(sign, seats, candidates).map((chosen) => placementOf(seats, candidates, chosen));
  const { placements: broken, loose } = brokenPlacements(sign, whole, rules);
  const placements = [...whole, ...broken];
  const told = [...broken.map((placement) => brokenNote(sign, placement)), ...leftOver(sign, placements, loose)];
  const complaints = [...sign.complaints, ...told];
  if (placements.length === 0) return { ...sign, complaints };

  const lower = new Map(placements.map((placement) => [placement.part, placement]));
  const carries = new Set(placements.map(({ on }) => on));
  const depths = sign.parts.map((_, index) => depthOf(index, lower));
  const parts = sign.parts.map((part, index): Part => {
    const isPlaced = lower.has(index) || carries.has(index);
    return isPlaced ? { ...moved(part, frameOf(index, lower)), place: 'assembled' } : part;
  });
  // Where several parts lie on one, the order in which their outlines were drawn is the order in which they are laid.
  const seatOf = (part: number) => lower.get(part)?.order ?? -1;
  const order = [...parts.keys()].sort(
    (first, second) => depths[first]! - depths[second]! || seatOf(first) - seatOf(second) || first - second,
  );
  const stacked = order.map((index) => parts[index]!);
  return {
    ...sign,
    ...extentOf(stacked.filter((part) => part.place === 'assembled')),
    parts: stacked,
    matches: placements.sort((first, second) => first.part - second.part).map((entry) => stackMatch(sign, entry)),
    complaints,
  };
}

/** A part, by index, laid on another. */
interface Placement {
  readonly part: number;
  readonly on: number;
  readonly markIds: readonly [string, ...string[]];
  /** Place of its mark among all marks of the drawing. */
  readonly order: number;
  readonly match: RingMatch;
  readonly ambiguous: boolean;
}

/** What is left once whole outlines are handed out: lines that end at the edge of the part they lie on. */
function brokenPlacements(
  sign: Sign,
  whole: readonly Placement[],
  rules: MatchRules,
): { placements: Placement[]; loose: ReadonlySet<number> } {
  const taken = new Set(whole.flatMap(({ markIds }) => markIds));
  const placed = new Set(whole.map(({ part }) => part));
  const open = [...sign.parts.keys()].filter((part) => !placed.has(part));
  const grounds = brokenGrounds(sign, (markId) => taken.has(markId), rules);
  const lower = new Map(whole.map(({ part, on }) => [part, on]));
  const { matches, loose } = brokenMatches(sign, open, grounds, lower, rules);
  const marks = sign.parts.flatMap((part) => part.marks.map(({ id }) => id));
  const placements = matches.map(({ part, on, markIds, match }): Placement => {
    const [first, ...more] = markIds as [string, ...string[]];
    return { part, on, match, markIds: [first, ...more], order: marks.indexOf(first), ambiguous: false };
  });
  return { placements, loose };
}

function brokenNote(sign: Sign, { part, on }: Placement): Complaint {
  const { name, drawnAt } = sign.parts[part]!;
  const message = `the guide of '${name}' is drawn only as far as '${sign.parts[on]!.name}' reaches: its place was found from the lines that are there`;
  return complain('clipped-guide', 'note', message, drawnAt);
}

function seatsOf(sign: Sign): Seat[] {
  const marks = sign.parts.flatMap((part) => part.marks.map(({ id }) => id));
  return sign.parts.flatMap((part, on) =>
    part.marks.flatMap((mark) => {
      const order = marks.indexOf(mark.id);
      const rings = mark.contours
        .filter((contour) => contour.closed)
        .map((contour) => flattenContour(contour, FLATTEN_TOLERANCE_MM));
      // The holes of an upper part are drawn with its outline, and are no seats.
      return rings.filter((ring) => !isHole(ring, rings)).map((ring) => ({ on, order, markId: mark.id, ring }));
    }),
  );
}

function isHole(ring: Ring, rings: readonly Ring[]): boolean {
  const area = Math.abs(ringArea(ring));
  const around = rings.filter((other) => Math.abs(ringArea(other)) > area && shareInside(other, ring) > 0.5);
  return around.length % 2 === 1;
}

function candidatesFor(sign: Sign, seats: readonly Seat[], rules: MatchRules): Candidate[] {
  const found = sign.parts.flatMap((part, index) =>
    seats.flatMap((seat, seatIndex) => {
      if (seat.on === index) return [];
      const match = matchRing(part.region.outer, seat.ring, rules);
      return match === null ? [] : [{ part: index, seat: seatIndex, match }];
    }),
  );
  const inset = commonInset(found);
  return found.map((entry) => {
    const { errorMm, insetMm } = entry.match;
    return { ...entry, rank: Math.round((errorMm + Math.abs(insetMm - inset)) / SAME_FIT_MM) };
  });
}

/** The inset that a drawing's outlines have in common: the median over the closest fit of every seat. */
function commonInset(found: readonly Omit<Candidate, 'rank'>[]): number {
  const closest = new Map<number, RingMatch>();
  for (const { seat, match } of found) {
    const known = closest.get(seat);
    if (known === undefined || match.errorMm < known.errorMm) closest.set(seat, match);
  }
  const insets = [...closest.values()].map(({ insetMm }) => insetMm).sort((a, b) => a - b);
  return insets[insets.length >> 1] ?? 0;
}

/** Best fits first, then drawing order; a part goes to one seat, a seat takes one part, and nothing lies on itself. */
function assign(sign: Sign, seats: readonly Seat[], candidates: readonly Candidate[]): Candidate[] {
  const sorted = [...candidates].sort(
    (first, second) => first.rank - second.rank || first.seat - second.seat || first.part - second.part,
  );
  const chosen = new Map<number, Candidate>();
  const lower = new Map<number, number>();
  const takenSeats = new Set<number>();
  for (const candidate of sorted) {
    const seat = seats[candidate.seat]!;
    if (chosen.has(candidate.part) || takenSeats.has(candidate.seat)) continue;
    if (liesOn(seat.on, candidate.part, lower)) continue;
    chosen.set(candidate.part, candidate);
    lower.set(candidate.part, seat.on);
    takenSeats.add(candidate.seat);
  }
  return [...sign.parts.keys()].flatMap((part) => chosen.get(part) ?? []);
}

function depthOf(part: number, lower: ReadonlyMap<number, Placement>): number {
  const placement = lower.get(part);
  return placement === undefined ? 0 : 1 + depthOf(placement.on, lower);
}

/** Drawn frame of a part to the frame of the part at the bottom of its stack. */
function frameOf(part: number, lower: ReadonlyMap<number, Placement>): Matrix {
  const placement = lower.get(part);
  if (placement === undefined) return IDENTITY;
  return multiply(frameOf(placement.on, lower), placement.match.matrix);
}

function moved(part: Part, matrix: Matrix): Part {
  const shape = transformShape(part.shape, matrix);
  return {
    ...part,
    shape,
    region: shapeToRegion(shape, FLATTEN_TOLERANCE_MM),
    marks: part.marks.map((mark) => ({
      ...mark,
      contours: mark.contours.map((contour) => transformContour(contour, matrix)),
    })),
  };
}

function placementOf(seats: readonly Seat[], candidates: readonly Candidate[], chosen: Candidate): Placement {
  const seat = seats[chosen.seat]!;
  const rivals = candidates.filter((other) => other.rank === chosen.rank);
  return {
    part: chosen.part,
    on: seat.on,
    markIds: [seat.markId],
    order: seat.order,
    match: chosen.match,
    ambiguous:
      rivals.some((other) => other.seat === chosen.seat && other.part !== chosen.part) ||
      rivals.some((other) => other.part === chosen.part && other.seat !== chosen.seat),
  };
}

function stackMatch(sign: Sign, { part, on, markIds, match, ambiguous }: Placement): StackMatch {
  const { turnDeg, mirrored, errorMm } = match;
  const [markId] = markIds;
  return { partId: sign.parts[part]!.id, onPartId: sign.parts[on]!.id, markId, turnDeg, mirrored, errorMm, ambiguous };
}

/** Parts without a place, told where the drawing shows places at all; what carries the marks needs none. */
function leftOver(sign: Sign, placements: readonly Placement[], loose: ReadonlySet<number>): Complaint[] {
  if (sign.parts.every(({ marks }) => marks.length === 0)) return [];
  const placed = new Set(placements.flatMap(({ part, on }) => [part, on]));
  const ground = largestMarked(sign);
  return sign.parts.flatMap((part, index) => {
    if (placed.has(index) || index === ground) return [];
    const message = loose.has(index)
      ? `the lines that are drawn of '${part.name}' leave open where along them it lies, so it hides no seam: draw its whole outline as a score, also over the edge of the part below`
      : `no score outline shows where '${part.name}' goes, so it hides no seam: draw its outline as a score on the part below, or place it in a stacked drawing`;
    return [complain('unplaced-part', 'warning', message, part.drawnAt)];
  });
}

/** The part below all others, judged by its area, when it has marks. */
function largestMarked({ parts }: Sign): number {
  const areas = parts.map(({ region }) => regionArea(region));
  const largest = areas.indexOf(Math.max(...areas));
  return parts[largest]!.marks.length > 0 ? largest : -1;
}
