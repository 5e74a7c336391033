import { fitArcs } from './arc-fit.ts';
import { regionRings, regionsFromRings } from './boolean.ts';
import { orientedContour } from './contour.ts';
import { type Crossing, findCrossings } from './crossings.ts';
import type { Contour, Shape } from './curve.ts';
import { GeometryError } from './error.ts';
import { flattenContour } from './flatten.ts';
import { type Bounds, isInRing, type Ring, reversedRing, ringArea, ringBounds } from './ring.ts';

/**
 * How finely contours are flattened to see which cross, and how near a resolved outline stays to the flattened one, mm: five times
 * finer than planning needs, so that outlines which merely pass close are not taken for crossing.
 */
export const RESOLVE_TOLERANCE_MM = 0.002;

/** Smallest area that a contour encloses, mm2; less is a line drawn twice. */
const LEAST_AREA_MM2 = 1e-6;

/** What a set of closed contours encloses. */
export interface ShapesFound {
  /** In the order of their outer contours. */
  readonly shapes: readonly Shape[];
  /** True when crossing, touching or overlapping contours had to be resolved; those alone lose their exact curves. */
  readonly resolved: boolean;
  /** Where contours (by index) meet each other or themselves. */
  readonly crossings: readonly Crossing[];
}

/** A closed outline across which the fill changes. */
interface Boundary {
  readonly contour: Contour;
  readonly ring: Ring;
  readonly box: Bounds;
}

/**
 * The shapes that closed contours enclose by a fill rule: nested in any way, drawn in any direction. Contours that meet no other
 * stay exactly as drawn (reversed where the convention asks for it); contours that meet are united by the rule within
 * RESOLVE_TOLERANCE_MM. Contours that enclose nothing are left out.
 * @throws GeometryError `open-contour` with the index; `non-finite` from flattening.
 * @remarks Near O(n log n) in the flattened vertices, plus one containment test for each pair of contours whose boxes nest.
 */
export function shapesFromContours(contours: readonly Contour[], fillRule: 'nonzero' | 'evenodd'): ShapesFound {
  const drawn: Boundary[] = [];
  const indices: number[] = [];
  contours.forEach((contour, index) => {
    if (!contour.closed)
      throw new GeometryError('open-contour', 'an open contour encloses nothing', `contour ${index}`);
    const ring = flattenContour(contour, RESOLVE_TOLERANCE_MM);
    if (ring.length < 6) return;
    drawn.push({ contour, ring, box: ringBounds(ring) });
    indices.push(index);
  });
  const crossings = findCrossings(drawn.map((boundary) => boundary.ring));
  const groups = groupsOf(drawn.length, crossings);
  const meets = new Set(crossings.flatMap(({ a, b }) => [a, b]));
  const boundaries: Boundary[] = [];
  for (const group of groups) {
    if (group.some((member) => meets.has(member))) boundaries.push(...resolveGroup(drawn, group, fillRule));
    else boundaries.push(...keepIfBoundary(drawn, group[0]!, fillRule));
  }
  return {
    shapes: nest(boundaries),
    resolved: crossings.length > 0,
    crossings: crossings.map(({ a, b, at }) => ({ a: indices[a]!, b: indices[b]!, at })),
  };
}

function isFilled(winding: number, rule: 'nonzero' | 'evenodd'): boolean {
  return rule === 'nonzero' ? winding !== 0 : winding % 2 !== 0;
}

/** A contour that meets no other is a boundary when the rule tells its two sides apart. */
function keepIfBoundary(drawn: readonly Boundary[], index: number, rule: 'nonzero' | 'evenodd'): Boundary[] {
  const own = drawn[index]!;
  const area = ringArea(own.ring);
  if (Math.abs(area) < LEAST_AREA_MM2) return [];
  const outside = windingAround(drawn, own, new Set([index]));
  const inside = outside + (area > 0 ? 1 : -1);
  return isFilled(outside, rule) === isFilled(inside, rule) ? [] : [own];
}

/** The winding that all other contours have round one that none of them meets. */
function windingAround(drawn: readonly Boundary[], own: Boundary, except: ReadonlySet<number>): number {
  let winding = 0;
  drawn.forEach((other, index) => {
    if (except.has(index) || !boxContains(other.box, own.box)) return;
    winding += windingNumber(other.ring, own.ring[0]!, own.ring[1]!);
  });
  return winding;
}

/** Signed number of turns of a ring round a point (also of a ring that crosses itself). O(n). */
function windingNumber(ring: Ring, x: number, y: number): number {
  let winding = 0;
  const n = ring.length;
  let px = ring[n - 2]!;
  let py = ring[n - 1]!;
  for (let i = 0; i < n; i += 2) {
    const qx = ring[i]!;
    const qy = ring[i + 1]!;
    if (py > y !== qy > y && x < ((px - qx) * (y - qy)) / (py - qy) + qx) winding += qy > py ? 1 : -1;
    px = qx;
    py = qy;
  }
  return winding;
}

/**
 * The boundaries inside a group of contours that meet. What encloses the whole group enters as frames of the same winding,
 * which are dropped again from the result.
 */
function resolveGroup(drawn: readonly Boundary[], group: readonly number[], rule: 'nonzero' | 'evenodd'): Boundary[] {
  const rings = group.map((member) => drawn[member]!.ring);
  const around = windingAround(drawn, hullOf(group.map((member) => drawn[member]!)), new Set(group));
  const frame = frameOf(rings);
  for (let i = 0; i < Math.abs(around); i++) rings.push(around > 0 ? frame : reversedRing(frame));
  const frameBox = ringBounds(frame);
  return regionRings(regionsFromRings(rings, rule))
    .filter((ring) => Math.abs(ringArea(ring)) >= LEAST_AREA_MM2 && !isSameBox(ringBounds(ring), frameBox))
    .map((ring) => ({ contour: fitArcs(ring, RESOLVE_TOLERANCE_MM), ring, box: ringBounds(ring) }));
}

/** Stands for a whole group when asking what lies around it: its box, and a point on it. */
function hullOf(members: readonly Boundary[]): Boundary {
  const box = {
    minX: Math.min(...members.map((member) => member.box.minX)),
    minY: Math.min(...members.map((member) => member.box.minY)),
    maxX: Math.max(...members.map((member) => member.box.maxX)),
    maxY: Math.max(...members.map((member) => member.box.maxY)),
  };
  return { ...members[0]!, box };
}

/** A rectangle well clear of the rings, on whole millimetres so that rounding leaves it alone. */
function frameOf(rings: readonly Ring[]): Ring {
  const boxes = rings.map(ringBounds);
  const minX = Math.floor(Math.min(...boxes.map((box) => box.minX))) - 10;
  const minY = Math.floor(Math.min(...boxes.map((box) => box.minY))) - 10;
  const maxX = Math.ceil(Math.max(...boxes.map((box) => box.maxX))) + 10;
  const maxY = Math.ceil(Math.max(...boxes.map((box) => box.maxY))) + 10;
  return Float64Array.of(minX, minY, maxX, minY, maxX, maxY, minX, maxY);
}

/** Boundaries never cross, and the fill changes across each: those at even depth are outer contours, the others holes. */
function nest(boundaries: readonly Boundary[]): Shape[] {
  const parents = boundaries.map((inner, index) =>
    boundaries.flatMap((outer, other) => (other !== index && isInside(inner, outer) ? [other] : [])),
  );
  const holes = new Map<number, Contour[]>();
  boundaries.forEach((boundary, index) => {
    const around = parents[index]!;
    if (around.length % 2 === 0) return;
    // The parent is the deepest of those around: it has exactly one less around itself.
    const parent = around.find((other) => parents[other]!.length === around.length - 1);
    if (parent === undefined) throw new GeometryError('internal', 'the nesting of contours is inconsistent');
    holes.set(parent, [...(holes.get(parent) ?? []), orientedContour(boundary.contour, -1)]);
  });
  return boundaries.flatMap((boundary, index) =>
    parents[index]!.length % 2 === 0
      ? [{ outer: orientedContour(boundary.contour, 1), holes: holes.get(index) ?? [] }]
      : [],
  );
}

/** Resolved outlines may touch at single points, so a few vertices vote. */
function isInside(inner: Boundary, outer: Boundary): boolean {
  if (!boxContains(outer.box, inner.box)) return false;
  const n = inner.ring.length / 2;
  let votes = 0;
  for (let i = 0; i < 3; i++) {
    const at = 2 * Math.floor((i * n) / 3);
    const next = (at + 2) % inner.ring.length;
    // Middles of edges: a touching point is a vertex.
    const x = (inner.ring[at]! + inner.ring[next]!) / 2;
    const y = (inner.ring[at + 1]! + inner.ring[next + 1]!) / 2;
    votes += isInRing(outer.ring, x, y) ? 1 : -1;
  }
  return votes > 0;
}

function boxContains(outer: Bounds, inner: Bounds): boolean {
  return outer.minX <= inner.minX && outer.minY <= inner.minY && outer.maxX >= inner.maxX && outer.maxY >= inner.maxY;
}

function isSameBox(a: Bounds, b: Bounds): boolean {
  return a.minX === b.minX && a.minY === b.minY && a.maxX === b.maxX && a.maxY === b.maxY;
}

/** Connected groups of contours that meet, each in rising order, in the order of their first members. */
function groupsOf(count: number, crossings: readonly Crossing[]): number[][] {
  const leader = Array.from({ length: count }, (_, index) => index);
  const find = (start: number): number => {
    let at = start;
    while (leader[at] !== at) {
      leader[at] = leader[leader[at]!]!;
      at = leader[at]!;
    }
    return at;
  };
  for (const { a, b } of crossings) {
    const p = find(a);
    const q = find(b);
    leader[Math.max(p, q)] = Math.min(p, q);
  }
  const groups = new Map<number, number[]>();
  for (let index = 0; index < count; index++) {
    const head = find(index);
    groups.set(head, [...(groups.get(head) ?? []), index]);
  }
  return [...groups.values()];
}
