import { flattenContour } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { isInRegion, type Region, regionBounds } from '@underlap/geometry/region';
import { transformRegion } from '@underlap/geometry/transform-region';
import type { CoverPart, Seam, SeamRemark } from './task.ts';
import { CoverMeasure, stretchesLength } from './visible.ts';

/** How far a part is moved, and by how much it is enlarged, at most and in what steps, mm. */
const FARTHEST_MOVE_MM = 12;
const MOST_GROWTH_MM = 12;
const STEP_MM = 2;

/** Shorter visible lengths are no concern, longer ones no small change will hide, mm. */
const LEAST_VISIBLE_MM = 1;
const MOST_VISIBLE_MM = 150;

/** What measuring may leave of a stretch that counts as hidden, mm. */
const MEASURE_SLACK_MM = 0.05;

const WAYS: readonly (readonly [number, number, string])[] = [
  [-1, 0, 'left'],
  [1, 0, 'right'],
  [0, -1, 'up'],
  [0, 1, 'down'],
  [-Math.SQRT1_2, -Math.SQRT1_2, 'up and left'],
  [Math.SQRT1_2, -Math.SQRT1_2, 'up and right'],
  [-Math.SQRT1_2, Math.SQRT1_2, 'down and left'],
  [Math.SQRT1_2, Math.SQRT1_2, 'down and right'],
];

/** A part as it might be instead, and how to say that. */
interface Change {
  readonly part: CoverPart;
  readonly regions: readonly Region[];
  readonly words: string;
}

/**
 * For each stretch of a seam that shows: the smallest move of one covering part that hides it, else the smallest enlargement.
 * @returns at most one hint for each stretch, each measured against the changed cover: the stretch is gone and nothing else of the
 * seam is bared.
 * @remarks O(stretches x parts x moves x points); only parts near a stretch are changed. Candidates are judged on points at most
 * 1 mm apart, then measured exactly.
 */
export function hintsFor(seam: Seam, parts: readonly CoverPart[]): SeamRemark[] {
  const points = densePath(seam);
  const covers = points.map(({ x, y }) => parts.filter((part) => isInRegion(part.region, x, y)));
  const out: SeamRemark[] = [];
  for (const [from, to] of seam.visible) {
    if (to - from < LEAST_VISIBLE_MM || to - from > MOST_VISIBLE_MM) continue;
    const shown = points.filter(({ at }) => at > from && at < to);
    if (shown.length === 0) continue;
    const needs = (part: CoverPart) => [
      ...shown,
      ...points.filter((_, index) => covers[index]!.length === 1 && covers[index]![0] === part),
    ];
    for (const change of changes(shown, parts, needs)) {
      if (!isProven(seam, [from, to], parts, change)) continue;
      const at = shown[Math.floor(shown.length / 2)]!;
      const place = seam.visible.length > 1 ? ` at ${at.x.toFixed(0)}, ${at.y.toFixed(0)}` : '';
      const message = `${change.words} hides the ${(to - from).toFixed(0)} mm of seam ${seam.id} that show${place}.`;
      out.push({ code: 'hint', message, at: { x: at.x, y: at.y } });
      break;
    }
  }
  return out;
}

/** Moves that cover all that is asked of the part, nearest first; then enlargements, smallest first. */
function* changes(
  shown: readonly Point[],
  parts: readonly CoverPart[],
  needs: (part: CoverPart) => readonly Point[],
): Generator<Change> {
  for (let distance = STEP_MM; distance <= FARTHEST_MOVE_MM; distance += STEP_MM) {
    for (const part of parts.filter((each) => isWithin(each, shown, distance))) {
      const wanted = needs(part);
      for (const [dx, dy, way] of WAYS) {
        const [e, f] = [distance * dx, distance * dy];
        if (!wanted.every(({ x, y }) => isInRegion(part.region, x - e, y - f))) continue;
        const moved = transformRegion(part.region, { a: 1, b: 0, c: 0, d: 1, e, f });
        yield { part, regions: [moved], words: `Moving ${part.name} ${distance} mm ${way}` };
      }
    }
  }
  for (let growth = STEP_MM; growth <= MOST_GROWTH_MM; growth += STEP_MM) {
    for (const part of parts.filter((each) => isWithin(each, shown, growth))) {
      const regions = offsetRegions([part.region], growth);
      if (!shown.every(({ x, y }) => regions.some((region) => isInRegion(region, x, y)))) continue;
      yield { part, regions, words: `Enlarging ${part.name} by ${growth} mm all round` };
    }
  }
}

/** Measured again with the changed part: the stretch is hidden, and no more shows elsewhere than before. */
function isProven(
  seam: Seam,
  [from, to]: readonly [number, number],
  parts: readonly CoverPart[],
  { part, regions }: Change,
): boolean {
  const others = parts.filter((other) => other !== part).map((other) => other.region);
  const { stretches } = new CoverMeasure([...others, ...regions]).visible(seam.path);
  const left = stretches.map(([a, b]) => [Math.max(a, from), Math.min(b, to)] as const).filter(([a, b]) => b > a);
  const before = stretchesLength(seam.visible) - (to - from);
  return stretchesLength(left) <= MEASURE_SLACK_MM && stretchesLength(stretches) <= before + MEASURE_SLACK_MM;
}

function isWithin(part: CoverPart, points: readonly Point[], distance: number): boolean {
  const box = regionBounds(part.region);
  return points.every(
    ({ x, y }) =>
      x > box.minX - distance && x < box.maxX + distance && y > box.minY - distance && y < box.maxY + distance,
  );
}

/** Points of the path at most 1 mm apart, with their distance along it. */
function densePath(seam: Seam): (Point & { at: number })[] {
  const line = flattenContour(seam.path, 0.05);
  const out: (Point & { at: number })[] = [];
  let gone = 0;
  for (let i = 0; i + 3 < line.length; i += 2) {
    const dx = line[i + 2]! - line[i]!;
    const dy = line[i + 3]! - line[i + 1]!;
    const size = Math.hypot(dx, dy);
    const steps = Math.max(1, Math.ceil(size));
    for (let k = 0; k < steps; k++) {
      const u = (k + 0.5) / steps;
      out.push({ x: line[i]! + u * dx, y: line[i + 1]! + u * dy, at: gone + u * size });
    }
    gone += size;
  }
  return out;
}
