import { intersectRegions, subtractRegions, unionRegions } from '@underlap/geometry/boolean';
import { clipPolyline, polylineLength } from '@underlap/geometry/clip-polyline';
import { contourBounds, contourLength, segmentTangent, shapeArea, transformContour } from '@underlap/geometry/contour';
import { flattenContour } from '@underlap/geometry/flatten';
import { placementMatrix } from '@underlap/geometry/matrix';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { isInRegion, type Region, regionArea, regionBounds, regionsArea } from '@underlap/geometry/region';
import type { Bounds } from '@underlap/geometry/ring';
import { NearIndex } from './near-index.ts';
import { NECK_SHARE, proveLock, proveNeck, proveSlivers } from './proof-strength.ts';
import type { SeamViolation } from './seam-violation.ts';
import type { Seam, SeamTask, SplitPiece, SplitPlan } from './task.ts';

/** `quick` leaves out the checks that erode and shift pieces; a job runs the quick ones, tests all. */
export type ProofDepth = 'quick' | 'full';

/** Relative difference allowed between the areas of part and pieces. */
const AREA_TOLERANCE = 1e-9;
/** Overlap of two flattened pieces that rounding explains, mm2. */
const OVERLAP_MM2 = 0.05;
/** A piece may exceed its limit by rounding, mm. */
const FIT_TOLERANCE_MM = 1e-5;
/** Seams at least this long need a knob, or a remark that says why there is none, mm. */
const LONG_SEAM_MM = 40;
/** Two ways of measuring a visible length may differ by this, mm. */
const VISIBLE_TOLERANCE_MM = 0.1;
/** Nearer than this to a cover's edge nobody can tell covered from bare, mm. */
const EDGE_MM = 0.02;
const LEAST_ANGLE_DEG = 60;

/**
 * Check a plan against its task by other means than it was made with: exact areas, booleans, erosion, shifting.
 * @returns what is wrong; empty when the plan holds.
 * @remarks Quick: O(n log n) per pair of neighbours, some tens of milliseconds. Full: about a second for two pieces.
 */
export function provePlan(task: SeamTask, plan: SplitPlan, depth: ProofDepth = 'quick'): SeamViolation[] {
  const out = [
    ...proveAreas(task, plan),
    ...plan.pieces.flatMap((piece) => [...proveOnePart(piece), ...proveFit(task, piece), ...proveAngles(piece)]),
    ...plan.seams.flatMap((seam) => [
      ...proveKeepOuts(task, seam),
      ...proveVisible(task, seam),
      ...proveHeld(task, seam),
      ...proveKnob(plan, seam),
    ]),
    ...proveJunctions(plan),
  ];
  if (depth === 'full') {
    out.push(
      ...plan.pieces.flatMap((piece) => [...proveNeck(task, piece), ...proveSlivers(task, plan, piece)]),
      ...plan.seams.flatMap((seam) => proveLock(plan, seam)),
    );
  }
  return out;
}

function proveAreas(task: SeamTask, plan: SplitPlan): SeamViolation[] {
  const out: SeamViolation[] = [];
  const whole = shapeArea(task.shape);
  const sum = plan.pieces.reduce((total, piece) => total + shapeArea(piece.shape), 0);
  if (!(Math.abs(sum - whole) <= AREA_TOLERANCE * whole)) {
    out.push({ code: 'area', message: `the pieces make ${sum} mm2 of a part of ${whole} mm2`, at: null });
  }
  for (const [i, a] of plan.pieces.entries()) {
    for (const b of plan.pieces.slice(i + 1)) {
      if (!doMeet(regionBounds(a.region), regionBounds(b.region))) continue;
      const overlap = regionsArea(intersectRegions([a.region], [b.region]));
      // Chords of a shared arc may differ by rounding: allow a nanometre along the whole seam.
      if (overlap > OVERLAP_MM2) {
        out.push({ code: 'overlap', message: `${a.id} and ${b.id} overlap by ${overlap.toFixed(3)} mm2`, at: null });
      }
    }
  }
  return out;
}

function proveOnePart(piece: SplitPiece): SeamViolation[] {
  const united = unionRegions([piece.region]);
  if (united.length !== 1) {
    return [{ code: 'parts', message: `${piece.id} falls into ${united.length} parts`, at: firstOf(piece.region) }];
  }
  const ratio = regionsArea(united) / regionArea(piece.region);
  if (!(Math.abs(ratio - 1) < 1e-6)) {
    return [{ code: 'self-crossing', message: `the outline of ${piece.id} crosses itself`, at: firstOf(piece.region) }];
  }
  return [];
}

function proveFit(task: SeamTask, piece: SplitPiece): SeamViolation[] {
  return task.limits.flatMap((limit): SeamViolation[] => {
    const turned = transformContour(piece.shape.outer, placementMatrix(0, 0, piece.limitTurnDeg[limit.name]));
    const box = contourBounds(turned);
    const width = box.maxX - box.minX + task.kerf;
    const height = box.maxY - box.minY + task.kerf;
    const isWithin = width <= limit.width + FIT_TOLERANCE_MM && height <= limit.height + FIT_TOLERANCE_MM;
    const size = `${width.toFixed(2)} x ${height.toFixed(2)}`;
    return isWithin
      ? []
      : [
          {
            code: 'fit',
            message: `${piece.id} needs ${size} mm of a ${limit.name} of ${limit.width} x ${limit.height} mm`,
            at: firstOf(piece.region),
          },
        ];
  });
}

/** Where a seam meets the outline or another seam, the wood keeps at least 60 degrees on either side. */
function proveAngles(piece: SplitPiece): SeamViolation[] {
  const out: SeamViolation[] = [];
  const origins = piece.edges[0]!;
  const { segments, start } = piece.shape.outer;
  const n = segments.length;
  for (let i = 0; i < n; i++) {
    const next = (i + 1) % n;
    if (origins[i] === origins[next]) continue;
    const from = i === 0 ? start : segments[i - 1]!.to;
    const corner = segments[i]!.to;
    const a = segmentTangent(from, segments[i]!, 1);
    const b = segmentTangent(corner, segments[next]!, 0);
    const turn = (Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y) * 180) / Math.PI;
    const inside = 180 - turn;
    if (inside < LEAST_ANGLE_DEG - 0.01 || inside > 360 - LEAST_ANGLE_DEG + 0.01) {
      const at = `${corner.x.toFixed(1)}, ${corner.y.toFixed(1)}`;
      out.push({
        code: 'angle',
        message: `${piece.id} has a corner of ${inside.toFixed(1)} degrees at ${at}`,
        at: corner,
      });
    }
  }
  return out;
}

/** A seam's end lies on the chords of the edge it ends on to within their gap, mm. */
const ON_EDGE_MM = 0.05;

function proveKeepOuts(task: SeamTask, seam: Seam): SeamViolation[] {
  const out: SeamViolation[] = [];
  const line = flattenContour(seam.path, 0.01);
  const barred = [...task.keepOuts, ...task.wishes.forbidden];
  const walls = new NearIndex();
  for (const region of barred) walls.addRegion(region);
  const outline = new NearIndex();
  outline.addRing(task.region.outer);
  // An opening that the seam ends on is outline like any other: near its ends it must come near.
  const ends = [seam.path.start, seam.path.segments[seam.path.segments.length - 1]!.to];
  for (const hole of task.region.holes) {
    const edge = new NearIndex();
    edge.addRing(hole);
    const isEnd = ends.some(({ x, y }) => edge.distance(x, y, 1) < ON_EDGE_MM);
    (isEnd ? outline : walls).addRing(hole);
  }
  const web = NECK_SHARE * task.thickness;
  const total = polylineLength(line);
  let along = 0;
  for (let i = 0; i < line.length; i += 2) {
    const x = line[i]!;
    const y = line[i + 1]!;
    if (i > 0) along += Math.hypot(x - line[i - 2]!, y - line[i - 1]!);
    const fromEnd = Math.min(along, total - along);
    const place = `${x.toFixed(1)}, ${y.toFixed(1)}`;
    if (barred.some((region) => isInRegion(region, x, y))) {
      out.push({ code: 'keep-out', message: `${seam.id} enters a keep-out at ${place}`, at: { x, y } });
      break;
    }
    if (walls.distance(x, y, web) < web - 0.02) {
      out.push({ code: 'keep-out', message: `${seam.id} comes too near a hole or keep-out at ${place}`, at: { x, y } });
      break;
    }
    // Near its ends a seam must come near the outline; it leaves it at 60 degrees or more.
    const wanted = Math.min(0.6 * web, 0.7 * fromEnd) - 0.05;
    if (outline.distance(x, y, web) < wanted) {
      out.push({ code: 'keep-out', message: `${seam.id} comes too near the outline at ${place}`, at: { x, y } });
      break;
    }
  }
  return out;
}

function proveVisible(task: SeamTask, seam: Seam): SeamViolation[] {
  const line = flattenContour(seam.path, 0.0005);
  const under = (cover: readonly Region[]) =>
    clipPolyline(line, false, cover, 'inside').reduce((sum, piece) => sum + polylineLength(piece), 0);
  const covered = under(task.cover);
  if (Math.abs(contourLength(seam.path) - seam.lengthMm) > VISIBLE_TOLERANCE_MM) {
    return [{ code: 'visible', message: `${seam.id} is not ${seam.lengthMm.toFixed(2)} mm long`, at: seam.path.start }];
  }
  if (Math.abs(covered - seam.hiddenLengthMm) <= VISIBLE_TOLERANCE_MM) return [];
  // A seam along the very edge of a cover may be told either way.
  if (task.cover.length === 0)
    return [{ code: 'visible', message: `${seam.id} lies under no cover`, at: seam.path.start }];
  const least = under(offsetRegions([...task.cover], -EDGE_MM)) - VISIBLE_TOLERANCE_MM;
  const most = under(offsetRegions([...task.cover], EDGE_MM)) + VISIBLE_TOLERANCE_MM;
  if (seam.hiddenLengthMm >= least && seam.hiddenLengthMm <= most) return [];
  const told = `${seam.hiddenLengthMm.toFixed(2)} mm hidden; measured ${covered.toFixed(2)}`;
  return [{ code: 'visible', message: `${seam.id} is said to be ${told} mm`, at: seam.path.start }];
}

/** Points along a seam at which holding is judged, mm apart, and how far the sum may differ for each end of a held stretch. */
const HELD_STEP_MM = 0.25;

/**
 * Judged point by point, by distance instead of by offsets: glued on one face, and on that face all wood of the part within the
 * landing is glued too.
 */
function proveHeld(task: SeamTask, seam: Seam): SeamViolation[] {
  const faces = task.glue.map(({ region }) => {
    const edges = new NearIndex();
    for (const rest of subtractRegions([task.region], offsetRegions([region], EDGE_MM))) edges.addRegion(rest);
    return { region, edges };
  });
  const line = flattenContour(seam.path, 0.005);
  const total = polylineLength(line);
  const steps = Math.max(1, Math.ceil(total / HELD_STEP_MM));
  let held = 0;
  let changes = 1;
  let last = false;
  for (const { x, y } of evenPoints(line, steps)) {
    const isHeld = faces.some(
      ({ region, edges }) => isInRegion(region, x, y) && edges.distance(x, y, task.landing + 1) >= task.landing,
    );
    if (isHeld !== last) changes++;
    if (isHeld) held += total / steps;
    last = isHeld;
  }
  if (Math.abs(held - seam.heldLengthMm) <= changes * (HELD_STEP_MM + 4 * EDGE_MM)) return [];
  const told = `${seam.heldLengthMm.toFixed(1)} mm held; measured ${held.toFixed(1)}`;
  return [{ code: 'held', message: `${seam.id} is said to be ${told} mm`, at: seam.path.start }];
}

/** Points in the middle of even steps along a polyline. */
function* evenPoints(line: Float64Array, steps: number): Generator<Point> {
  const step = polylineLength(line) / steps;
  let next = step / 2;
  let gone = 0;
  for (let i = 2; i < line.length; i += 2) {
    const dx = line[i]! - line[i - 2]!;
    const dy = line[i + 1]! - line[i - 1]!;
    const size = Math.hypot(dx, dy);
    for (; next <= gone + size; next += step) {
      const u = (next - gone) / size;
      yield { x: line[i - 2]! + u * dx, y: line[i - 1]! + u * dy };
    }
    gone += size;
  }
}

function proveKnob(plan: SplitPlan, seam: Seam): SeamViolation[] {
  if (seam.knobs.length > 0 || seam.lengthMm <= LONG_SEAM_MM) return [];
  const isSaid = plan.remarks.some((remark) => remark.code === 'no-knob' && remark.message.includes(seam.id));
  return isSaid ? [] : [{ code: 'no-knob', message: `${seam.id} has no knob`, at: seam.path.start }];
}

/** Places where a third piece meets a seam stay apart, so that four corners never meet. */
function proveJunctions(plan: SplitPlan): SeamViolation[] {
  const ends = plan.seams.flatMap((seam) => [seam.path.start, seam.path.segments[seam.path.segments.length - 1]!.to]);
  const distinct: Point[] = [];
  for (const end of ends) if (!distinct.some((point) => apart(point, end) < 1e-6)) distinct.push(end);
  const out: SeamViolation[] = [];
  for (const [i, a] of distinct.entries()) {
    for (const b of distinct.slice(i + 1)) {
      if (apart(a, b) >= 8) continue;
      const place = `${a.x.toFixed(1)}, ${a.y.toFixed(1)}`;
      out.push({
        code: 'junction',
        message: `seams end ${apart(a, b).toFixed(1)} mm from each other at ${place}`,
        at: a,
      });
    }
  }
  return out;
}

function firstOf(region: Region): Point {
  return { x: region.outer[0]!, y: region.outer[1]! };
}

function apart(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function doMeet(a: Bounds, b: Bounds): boolean {
  return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;
}
