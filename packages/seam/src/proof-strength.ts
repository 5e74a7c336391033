import { intersectRegions, subtractRegions } from '@underlap/geometry/boolean';
import { shapeToRegion } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { type Region, regionArea, regionBounds, regionsArea } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import { transformRegion } from '@underlap/geometry/transform-region';
import { locks } from './knob-kinds.ts';
import type { SeamViolation } from './seam-violation.ts';
import type { Seam, SeamTask, SplitPiece, SplitPlan } from './task.ts';

/** Share of the thickness that necks must reach: flattening takes the rest. */
export const NECK_SHARE = 0.98;

/** Pieces are judged on chords this near to their curves, mm: three hundredths of a millimetre of wood hold nothing. */
const JUDGE_MM = 0.03;

/** Rounded corners of what is eroded and grown again, mm. */
const ARC_MM = 0.02;

/** Steps from the whole piece to one eroded by half the thickness. */
const LEAST_STEPS = 8;

/**
 * Pieces are eroded at a tenth of their size about their middle: the boolean engine counts a millionth of a unit and works on
 * plain numbers up to 47 units, on slow wide ones beyond. That leaves it a hundred thousandth of a millimetre.
 */
const SCALE = 0.1;

/** Erode step by step: the first time a piece comes apart tells its narrowest neck. */
export function proveNeck(task: SeamTask, piece: SplitPiece): SeamViolation[] {
  const least = (NECK_SHARE * task.thickness) / 2;
  const small = new Model(piece);
  for (let step = 1; ; step++) {
    const radius = Math.min(least, step * Math.max(0.25, least / LEAST_STEPS));
    const eroded = small.grown([small.region], -radius);
    if (eroded.length > 1 && eroded.length > partsOfOwn(task, small, radius)) {
      const at = small.outside(firstOf(eroded.reduce((a, b) => (regionArea(a) < regionArea(b) ? a : b))));
      const place = `${at.x.toFixed(1)}, ${at.y.toFixed(1)}`;
      return [
        { code: 'neck', message: `${piece.id} is narrower than ${(2 * radius).toFixed(2)} mm near ${place}`, at },
      ];
    }
    if (radius >= least) return [];
  }
}

/** Into how many parts the piece would come apart by the part's own narrow places. */
function partsOfOwn(task: SeamTask, small: Model, radius: number): number {
  const own = small.grown([small.inside(task.region)], -radius);
  return intersectRegions(own, small.grown([small.region], -radius * 0.2)).length;
}

/**
 * No wedge or sliver beside a seam: a disc reaches all wood but corners. They do not make a split wrong, but thin wood chars and
 * breaks off; at most one is told for each piece.
 */
export function proveSlivers(task: SeamTask, plan: SplitPlan, piece: SplitPiece): SeamViolation[] {
  const necks = plan.seams.flatMap((seam) => seam.knobs.map((knob) => knob.neck));
  const radius = Math.min(5, 0.45 * task.thickness, ...necks.map((neck) => 0.45 * neck));
  const small = new Model(piece);
  const opened = small.grown(small.grown([small.region], -radius), radius);
  const lost = subtractRegions([small.region], opened);
  const allowed = 1.2 * radius * radius;
  for (const region of lost) {
    const area = regionArea(region) / SCALE ** 2;
    if (area <= allowed) continue;
    const whole = small.inside(task.region);
    const own = subtractRegions([region], small.grown(small.grown([whole], -radius), radius));
    if (regionsArea(own) > 0.5 * regionArea(region)) continue;
    const at = small.outside(firstOf(region));
    const place = `${at.x.toFixed(1)}, ${at.y.toFixed(1)}`;
    return [{ code: 'sliver', message: `${piece.id} has a sliver of ${area.toFixed(1)} mm2 at ${place}`, at }];
  }
  return [];
}

/** How far the two sides are pulled apart, mm, and in how many directions. */
const PULL_MM = 0.3;
const DIRECTIONS = 24;

/**
 * Shift one side by 0.3 mm in 24 directions: every knob must collide with its socket by its overhang on one side at least.
 * @remarks Judged in a window around each knob: other knobs of the seam cannot stand in for it.
 */
export function proveLock(plan: SplitPlan, seam: Seam): SeamViolation[] {
  const [a, b] = seam.between.map((id) => plan.pieces.find((piece) => piece.id === id)!);
  for (const knob of seam.knobs) {
    if (!locks(knob)) continue;
    const half = knob.head / 2 + WINDOW_MARGIN_MM;
    const fixed = windowOf(b!.region, knob.centre, half + PULL_MM);
    const wanted = 0.98 * PULL_MM * ((knob.head - knob.neck) / 2);
    const own = windowOf(a!.region, knob.centre, half);
    for (let k = 0; k < DIRECTIONS; k++) {
      const angle = (2 * Math.PI * k) / DIRECTIONS;
      const [e, f] = [PULL_MM * Math.cos(angle), PULL_MM * Math.sin(angle)];
      const moved = transformRegion(own, { a: 1, b: 0, c: 0, d: 1, e, f });
      if (regionsArea(intersectRegions([moved], [fixed])) >= wanted) continue;
      const deg = (360 * k) / DIRECTIONS;
      return [{ code: 'lock', message: `${seam.id} does not hold when pulled at ${deg} degrees`, at: knob.centre }];
    }
  }
  return [];
}

/** What is seen of the wood around a knob's head, mm. */
const WINDOW_MARGIN_MM = 1.5;

/** What of a region lies in a square window, moved to the window's middle; edges along the rim may lie on each other. */
function windowOf(region: Region, middle: Point, half: number): Region {
  const clipped = (ring: Ring) => clippedRing(ring, middle, half);
  return { outer: clipped(region.outer), holes: region.holes.map(clipped).filter((hole) => hole.length >= 6) };
}

/** Side by side: keep what lies inside (Sutherland and Hodgman 1974). O(n). */
function clippedRing(ring: Ring, middle: Point, half: number): Ring {
  let points: number[] = [];
  for (let i = 0; i < ring.length; i += 2) points.push(ring[i]! - middle.x, ring[i + 1]! - middle.y);
  for (const [axis, sign] of [
    [0, 1],
    [0, -1],
    [1, 1],
    [1, -1],
  ] as const) {
    const kept: number[] = [];
    const n = points.length;
    const depth = (i: number) => half - sign * points[i + axis]!;
    for (let i = 0; i < n; i += 2) {
      const j = (i + 2) % n;
      const [from, to] = [depth(i), depth(j)];
      if (from >= 0) kept.push(points[i]!, points[i + 1]!);
      if (from >= 0 === to >= 0) continue;
      const u = from / (from - to);
      kept.push(points[i]! + u * (points[j]! - points[i]!), points[i + 1]! + u * (points[j + 1]! - points[i + 1]!));
    }
    points = kept;
  }
  return Float64Array.from(points);
}

/** A piece at a tenth of its size, about its own middle. */
class Model {
  readonly region: Region;
  private readonly middle: Point;

  constructor(piece: SplitPiece) {
    const box = regionBounds(piece.region);
    this.middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
    this.region = this.inside(shapeToRegion(piece.shape, JUDGE_MM));
  }

  inside(region: Region): Region {
    const { x, y } = this.middle;
    return transformRegion(region, { a: SCALE, b: 0, c: 0, d: SCALE, e: -SCALE * x, f: -SCALE * y });
  }

  outside(point: Point): Point {
    return { x: this.middle.x + point.x / SCALE, y: this.middle.y + point.y / SCALE };
  }

  /** @param distance - in the piece's own mm. */
  grown(regions: readonly Region[], distance: number): Region[] {
    return offsetRegions(regions, SCALE * distance, SCALE * ARC_MM);
  }
}

function firstOf(region: Region): Point {
  return { x: region.outer[0]!, y: region.outer[1]! };
}
