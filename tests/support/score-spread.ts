import { readSvg } from '@underlap/artwork/svg/read-svg';
import { distancePointToRing } from '@underlap/geometry/distance';
import { rebuildStack } from '@underlap/stack/rebuild-stack';
import { recogniseParts } from '@underlap/stack/recognise';
import type { Sign } from '@underlap/stack/sign';
import type { RandomSpread, SpreadTruth } from './random-spread.ts';

/** How many parts were laid where they belong. */
export interface SpreadScore {
  readonly seats: number;
  readonly matched: number;
  /** On the right part, every point of the outline within the tolerance of the part laid on it. */
  readonly right: number;
}

export function scoreSpread({ svg, truth }: RandomSpread, toleranceMm: number): SpreadScore {
  const drawing = readSvg(svg, { name: 'spread.svg' });
  const sign = rebuildStack(recogniseParts(drawing, { mode: 'auto' }));
  return { seats: truth.seats.length, matched: sign.matches.length, right: countRight(sign, truth, toleranceMm) };
}

function countRight(sign: Sign, truth: SpreadTruth, toleranceMm: number): number {
  const open = [...truth.seats];
  for (const match of sign.matches) {
    const ring = sign.parts.find((part) => part.id === match.partId)!.region.outer;
    const found = open.findIndex(
      (seat) =>
        seat.kind === truth.kindOf.get(match.partId) &&
        seat.on === match.onPartId &&
        seat.points.every(({ x, y }) => distancePointToRing(x, y, ring) <= toleranceMm),
    );
    if (found >= 0) open.splice(found, 1);
  }
  return truth.seats.length - open.length;
}

export function sumOf(scores: readonly SpreadScore[]): SpreadScore {
  const sum = (of: (score: SpreadScore) => number): number => scores.reduce((total, score) => total + of(score), 0);
  return {
    seats: sum((score) => score.seats),
    matched: sum((score) => score.matched),
    right: sum((score) => score.right),
  };
}
