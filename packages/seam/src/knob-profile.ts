import type { ArcSegment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { type KnobKind, locks } from './knob-kinds.ts';
import { HEAD_SHARE, roundCentre } from './sizes.ts';
import { type SeamSegment, type Spine, spineAt } from './spine.ts';

/** What a knob should be like, mm. */
export interface KnobDesign {
  readonly kind: KnobKind;
  /** Narrowest width. */
  readonly neck: number;
  readonly fillet: number;
  /** How far a dovetail or step stands off; round knobs follow from their neck. */
  readonly reach: number;
}

/** A knob's outline in place of a stretch of spine. */
export interface KnobProfile {
  readonly kind: KnobKind;
  /** Distance along the spine at its axis, and the stretch it replaces. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly side: 1 | -1;
  /** From spineAt(from) to spineAt(to), tangent to the spine at both. */
  readonly start: Point;
  readonly segments: readonly SeamSegment[];
  readonly neck: number;
  readonly head: number;
  readonly centre: Point;
}

/** How far straight flanks flare out from the knob's axis, rad; negative ones close in, and such a knob does not lock. */
const FLARE: Readonly<Record<Exclude<KnobKind, 'round'>, number>> = {
  dovetail: (22 * Math.PI) / 180,
  step: (-20 * Math.PI) / 180,
};

type FlankedDesign = KnobDesign & { readonly kind: keyof typeof FLARE };

function isFlanked(design: KnobDesign): design is FlankedDesign {
  return design.kind in FLARE;
}

/** The neck may miss its design by this much, mm. */
const NECK_TOLERANCE_MM = 1e-6;

/** The frame of a knob: origin on the spine, x along it, y to the knob's side. */
interface Frame {
  readonly at: number;
  readonly side: 1 | -1;
  readonly x: number;
  readonly y: number;
  readonly ux: number;
  readonly uy: number;
  readonly vx: number;
  readonly vy: number;
}

/**
 * A knob on a spine, tangent to it at both feet, also where the spine bends.
 * @returns null when the spine bends too much or ends too soon for it.
 * @remarks Lines and arcs only. On a straight spine the closed form holds; on bends each foot is the root of the distance
 * between fillet and head, and the head is moved until the neck is as designed. Tangency within 1e-9.
 */
export function knobProfile(spine: Spine, at: number, side: 1 | -1, design: KnobDesign): KnobProfile | null {
  const { x, y, tx, ty } = spineAt(spine, at);
  const frame: Frame = { at, side, x, y, ux: tx, uy: ty, vx: -ty * side, vy: tx * side };
  return isFlanked(design) ? flankedProfile(spine, frame, design) : roundProfile(spine, frame, design);
}

/** Lock of a design: how much wider the head is than the neck, on each side, mm. */
export function lockOf(design: KnobDesign): number {
  if (!locks(design)) return 0;
  if (!isFlanked(design)) return (HEAD_SHARE - 1) * (design.neck / 2);
  const head = flankedHead(design.neck / 2, design);
  return head.cornerRadius - head.cornerX - design.neck / 2;
}

function roundProfile(spine: Spine, frame: Frame, design: KnobDesign): KnobProfile | null {
  const f = design.fillet;
  const n = design.neck / 2;
  const r = HEAD_SHARE * n;
  const feetFor = (c: number) => {
    const centre = toWorld(frame, 0, c);
    const gap = (s: number) => {
      const fillet = filletCentre(spine, frame, s, f);
      return Math.hypot(fillet.x - centre.x, fillet.y - centre.y) - (r + f);
    };
    const before = footAt(frame.at, -1, gap, spine.length, 4 * (n + f));
    const after = footAt(frame.at, 1, gap, spine.length, 4 * (n + f));
    if (before === null || after === null) return null;
    return { before, after, centre, neck: neckBetween(spine, frame, before, after, f) };
  };
  // The farther off the head, the narrower the neck.
  const straight = roundCentre(n, r, f);
  const found = tuned(straight, straight - 0.6 * n, straight + 0.6 * n, design.neck, -1, feetFor);
  if (found === null) return null;
  const { before, after, centre } = found;
  const first = filletCentre(spine, frame, before, f);
  const second = filletCentre(spine, frame, after, f);
  const q1 = toward(centre, first, r);
  const q2 = toward(centre, second, r);
  const start = spinePoint(spine, before);
  const end = spinePoint(spine, after);
  const segments: SeamSegment[] = [
    arc(first, f, start, q1, frame.side),
    arc(centre, r, q1, q2, -frame.side as 1 | -1),
    arc(second, f, q2, end, frame.side),
  ];
  return {
    kind: 'round',
    at: frame.at,
    from: before,
    to: after,
    side: frame.side,
    start,
    segments,
    neck: found.neck,
    head: 2 * r,
    centre,
  };
}

/** The left half of a head with flanks in the knob's frame: the corner's centre, and the flank's inward normal. */
function flankedHead(n: number, design: FlankedDesign) {
  const f = design.fillet;
  const flare = FLARE[design.kind];
  const mx = Math.cos(flare);
  const my = Math.sin(flare);
  const cornerRadius = Math.max(f, 0.18 * design.reach);
  const cornerY = design.reach - cornerRadius;
  const footX = -(n + f);
  // The corner lies its radius inside the flank, the fillet its radius outside.
  const cornerX = footX + (f + cornerRadius - (cornerY - f) * my) / mx;
  return { mx, my, cornerRadius, cornerX, cornerY };
}

function flankedProfile(spine: Spine, frame: Frame, design: FlankedDesign): KnobProfile | null {
  const f = design.fillet;
  const n = design.neck / 2;
  const feetFor = (half: number) => {
    const head = flankedHead(half, design);
    const halfTop = -head.cornerX;
    if (halfTop < 0) return null;
    const foot = (way: 1 | -1) => {
      const corner = toWorld(frame, way * halfTop, head.cornerY);
      const mx = -way * head.mx * frame.ux + head.my * frame.vx;
      const my = -way * head.mx * frame.uy + head.my * frame.vy;
      // Distance of the fillet from the flank, on the outside: zero at the foot, negative next to the axis.
      const gap = (s: number) => {
        const fillet = filletCentre(spine, frame, s, f);
        return (corner.x - fillet.x) * mx + (corner.y - fillet.y) * my - (f + head.cornerRadius);
      };
      return footAt(frame.at, way, gap, spine.length, 3 * (half + f) + design.reach);
    };
    const before = foot(-1);
    const after = foot(1);
    if (before === null || after === null) return null;
    const neck = locks(design) ? neckBetween(spine, frame, before, after, f) : 2 * (halfTop + head.cornerRadius);
    return { before, after, head, halfTop, neck };
  };
  const guess = locks(design) ? n : n + 0.4 * design.reach;
  const found = tuned(guess, 0.4 * n, 2 * n + design.reach, design.neck, 1, feetFor);
  if (found === null) return null;
  const { before, after, head, halfTop } = found;
  const start = spinePoint(spine, before);
  const end = spinePoint(spine, after);
  const q = head.cornerRadius;
  const segments: SeamSegment[] = [];
  const side = frame.side;
  const against = -side as 1 | -1;
  const left = cornerOf(frame, -1, halfTop, head);
  const right = cornerOf(frame, 1, halfTop, head);
  const firstFillet = filletCentre(spine, frame, before, f);
  const secondFillet = filletCentre(spine, frame, after, f);
  const flankStart = { x: firstFillet.x + f * left.mx, y: firstFillet.y + f * left.my };
  const flankEnd = { x: secondFillet.x + f * right.mx, y: secondFillet.y + f * right.my };
  const cornerStart = { x: left.x - q * left.mx, y: left.y - q * left.my };
  const cornerEnd = { x: right.x - q * right.mx, y: right.y - q * right.my };
  const topLeft = { x: left.x + q * frame.vx, y: left.y + q * frame.vy };
  const topRight = { x: right.x + q * frame.vx, y: right.y + q * frame.vy };
  segments.push(arc(firstFillet, f, start, flankStart, side));
  segments.push({ kind: 'line', to: cornerStart });
  segments.push(arc(left, q, cornerStart, topLeft, against));
  segments.push({ kind: 'line', to: topRight });
  segments.push(arc(right, q, topRight, cornerEnd, against));
  segments.push({ kind: 'line', to: flankEnd });
  segments.push(arc(secondFillet, f, flankEnd, end, side));
  return {
    kind: design.kind,
    at: frame.at,
    from: before,
    to: after,
    side,
    start,
    segments,
    neck: found.neck,
    head: 2 * (halfTop + q),
    centre: toWorld(frame, 0, design.reach / 2),
  };
}

function cornerOf(frame: Frame, way: 1 | -1, halfTop: number, head: ReturnType<typeof flankedHead>) {
  const at = toWorld(frame, way * halfTop, head.cornerY);
  return {
    ...at,
    mx: -way * head.mx * frame.ux + head.my * frame.vx,
    my: -way * head.mx * frame.uy + head.my * frame.vy,
  };
}

/** Move the head (or widen it) until the neck is as designed, by secants: the neck is nearly linear in the parameter. */
function tuned<T extends { neck: number }>(
  guess: number,
  low: number,
  high: number,
  neck: number,
  way: 1 | -1,
  build: (parameter: number) => T | null,
): T | null {
  let p0 = guess;
  let made = build(p0);
  if (made === null) return null;
  let e0 = made.neck - neck;
  if (Math.abs(e0) <= NECK_TOLERANCE_MM) return made;
  let p1 = p0 - way * e0;
  for (let k = 0; k < 12; k++) {
    if (!(p1 > low && p1 < high)) return null;
    made = build(p1);
    if (made === null) return null;
    const e1 = made.neck - neck;
    if (Math.abs(e1) <= NECK_TOLERANCE_MM) return made;
    if (e1 === e0) return null;
    const next = p1 - (e1 * (p1 - p0)) / (e1 - e0);
    p0 = p1;
    e0 = e1;
    p1 = next;
  }
  return null;
}

/** First root of `gap` from the axis outwards, where it turns from negative to positive; null within `limit`. */
function footAt(axis: number, way: 1 | -1, gap: (s: number) => number, length: number, limit: number): number | null {
  const first = gap(axis);
  if (!(first < 0)) return null;
  const step = 1.5;
  let inside = axis;
  let low = first;
  for (let d = step; d <= limit; d += step) {
    const s = axis + way * d;
    if (s < 0 || s > length) return null;
    const value = gap(s);
    if (value >= 0) return rootBetween(gap, inside, low, s, value);
    inside = s;
    low = value;
  }
  return null;
}

/** Illinois variant of false position (Dowell and Jarratt, BIT 11, 1971). */
function rootBetween(gap: (s: number) => number, a0: number, fa0: number, b0: number, fb0: number): number {
  let [a, fa, b, fb] = [a0, fa0, b0, fb0];
  let kept = 0;
  for (let k = 0; k < 60; k++) {
    if (fb === fa) break;
    const c = (a * fb - b * fa) / (fb - fa);
    const fc = gap(c);
    if (Math.abs(fc) < 1e-13 || c === a || c === b) return c;
    if (fc < 0) {
      a = c;
      fa = fc;
      if (kept === 1) fb /= 2;
      kept = 1;
    } else {
      b = c;
      fb = fc;
      if (kept === -1) fa /= 2;
      kept = -1;
    }
  }
  return b;
}

function filletCentre(spine: Spine, frame: Frame, s: number, f: number): Point {
  const { x, y, tx, ty } = spineAt(spine, s);
  return { x: x - ty * frame.side * f, y: y + tx * frame.side * f };
}

function neckBetween(spine: Spine, frame: Frame, before: number, after: number, f: number): number {
  const first = filletCentre(spine, frame, before, f);
  const second = filletCentre(spine, frame, after, f);
  return Math.hypot(second.x - first.x, second.y - first.y) - 2 * f;
}

function spinePoint(spine: Spine, s: number): Point {
  const { x, y } = spineAt(spine, s);
  return { x, y };
}

function toWorld(frame: Frame, x: number, y: number): Point {
  return { x: frame.x + x * frame.ux + y * frame.vx, y: frame.y + x * frame.uy + y * frame.vy };
}

function toward(from: Point, to: Point, distance: number): Point {
  const size = Math.hypot(to.x - from.x, to.y - from.y);
  return { x: from.x + ((to.x - from.x) * distance) / size, y: from.y + ((to.y - from.y) * distance) / size };
}

/** The arc about `centre` from `from` to `to` that turns the given way, by less than a full turn. */
function arc(centre: Point, radius: number, from: Point, to: Point, way: 1 | -1): ArcSegment {
  const a = Math.atan2(from.y - centre.y, from.x - centre.x);
  const b = Math.atan2(to.y - centre.y, to.x - centre.x);
  let sweep = b - a;
  while (way * sweep <= 0) sweep += way * 2 * Math.PI;
  while (way * sweep > 2 * Math.PI) sweep -= way * 2 * Math.PI;
  return { kind: 'arc', to, centre, radius, sweep };
}
