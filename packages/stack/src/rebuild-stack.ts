import type { Complaint } from '@underlap/artwork/drawing';
import { transformContour, transformShape } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, flattenContour, shapeToRegion } from '@underlap/geometry/flatten';
import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import { type Ring, ringArea } from '@underlap/geometry/ring';
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
  const chosen = assign(sign, seats, candidates);
  if (chosen.length === 0) return { ...sign, complaints: [...sign.complaints, ...leftOver(sign, seats, chosen)] };

  const lower = new Map(chosen.map((candidate) => [candidate.part, candidate]));
  const carries = new Set(chosen.map((candidate) => seats[candidate.seat]!.on));
  const depths = sign.parts.map((_, index) => depthOf(index, lower, seats));
  const parts = sign.parts.map((part, index): Part => {
    const isPlaced = lower.has(index) || carries.has(index);
    return isPlaced ? { ...moved(part, frameOf(index, lower, seats)), place: 'assembled' } : part;
  });
  // Where several parts lie on one, the order in which their outlines were drawn is the order in which they are laid.
  const seatOf = (part: number) => lower.get(part)?.seat ?? -1;
  const order = [...parts.keys()].sort(
    (first, second) => depths[first]! - depths[second]! || seatOf(first) - seatOf(second) || first - second,
  );
  const matches = chosen.map((candidate) => stackMatch(sign, seats, candidates, candidate));
  const stacked = order.map((index) => parts[index]!);
  return {
    ...sign,
    ...extentOf(stacked.filter((part) => part.place === 'assembled')),
    parts: stacked,
    matches,
    complaints: [...sign.complaints, ...leftOver(sign, seats, chosen)],
  };
}

function seatsOf(sign: Sign): Seat[] {
  return sign.parts.flatMap((part, on) =>
    part.marks.flatMap((mark) => {
      const rings = mark.contours
        .filter((contour) => contour.closed)
        .map((contour) => flattenContour(contour, FLATTEN_TOLERANCE_MM));
      // The holes of an upper part are drawn with its outline, and are no seats.
      return rings.filter((ring) => !isHole(ring, rings)).map((ring) => ({ on, markId: mark.id, ring }));
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
  const takenSeats = new Set<number>();
  for (const candidate of sorted) {
    const seat = seats[candidate.seat]!;
    if (chosen.has(candidate.part) || takenSeats.has(candidate.seat)) continue;
    if (liesOn(seat.on, candidate.part, chosen, seats)) continue;
    chosen.set(candidate.part, candidate);
    takenSeats.add(candidate.seat);
  }
  return [...sign.parts.keys()].flatMap((part) => chosen.get(part) ?? []);
}

/** Does `part` already lie, directly or not, on `ground`? */
function liesOn(part: number, ground: number, chosen: ReadonlyMap<number, Candidate>, seats: readonly Seat[]): boolean {
  let current: number | undefined = part;
  while (current !== undefined) {
    if (current === ground) return true;
    const next = chosen.get(current);
    current = next === undefined ? undefined : seats[next.seat]!.on;
  }
  return false;
}

function depthOf(part: number, lower: ReadonlyMap<number, Candidate>, seats: readonly Seat[]): number {
  const candidate = lower.get(part);
  return candidate === undefined ? 0 : 1 + depthOf(seats[candidate.seat]!.on, lower, seats);
}

/** Drawn frame of a part to the frame of the part at the bottom of its stack. */
function frameOf(part: number, lower: ReadonlyMap<number, Candidate>, seats: readonly Seat[]): Matrix {
  const candidate = lower.get(part);
  if (candidate === undefined) return IDENTITY;
  return multiply(frameOf(seats[candidate.seat]!.on, lower, seats), candidate.match.matrix);
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

function stackMatch(
  sign: Sign,
  seats: readonly Seat[],
  candidates: readonly Candidate[],
  chosen: Candidate,
): StackMatch {
  const seat = seats[chosen.seat]!;
  const rivals = candidates.filter((other) => other.rank === chosen.rank);
  return {
    partId: sign.parts[chosen.part]!.id,
    onPartId: sign.parts[seat.on]!.id,
    markId: seat.markId,
    turnDeg: chosen.match.turnDeg,
    mirrored: chosen.match.mirrored,
    errorMm: chosen.match.errorMm,
    ambiguous:
      rivals.some((other) => other.seat === chosen.seat && other.part !== chosen.part) ||
      rivals.some((other) => other.part === chosen.part && other.seat !== chosen.seat),
  };
}

function leftOver(sign: Sign, seats: readonly Seat[], chosen: readonly Candidate[]): Complaint[] {
  if (seats.length === 0) return [];
  const placed = new Set(chosen.map((candidate) => candidate.part));
  const carrying = new Set(chosen.map((candidate) => seats[candidate.seat]!.on));
  return sign.parts.flatMap((part, index) => {
    if (placed.has(index) || carrying.has(index)) return [];
    const message = `no score outline shows where '${part.name}' goes, so it hides no seam: draw its outline as a score on the part below, or place it in a stacked drawing`;
    return [complain('unplaced-part', 'warning', message, part.drawnAt)];
  });
}
