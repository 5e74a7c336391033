import { subtractRegions } from '@underlap/geometry/boolean';
import { contourBounds } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { isInRegion, type Region, regionsArea } from '@underlap/geometry/region';
import { reversedRing, ringBounds } from '@underlap/geometry/ring';

/** What the shop hangs its signs from. */
export interface SlotKind {
  /** 'slot': a lying slot with round ends. 'keyhole': a round hole for the head of a screw with a narrow slit above it. */
  readonly kind: 'slot' | 'keyhole';
  /** Slot: its length. Keyhole: the hole for the head. mm. */
  readonly width: number;
  /** Slot: its height. Keyhole: the slit for the shaft. mm. */
  readonly height: number;
  /** Wood that stays around it, to edges, seams and parts on top, mm. */
  readonly clear: number;
}

/** A slot in its place. */
export interface PlacedSlot {
  readonly at: Point;
  /** Where the nail or screw carries: the middle of its upper edge. */
  readonly bearing: Point;
}

/** Centres are sought in steps of this, mm. */
const STEP_MM = 2;

/** The outline of one slot about its middle, as a hole of a part: negative area. */
export function slotContour(slot: SlotKind, at: Point): Contour {
  return slot.kind === 'slot' ? lyingSlot(slot, at) : keyhole(slot, at);
}

/** Where the nail carries. */
export function bearingOf(slot: SlotKind, at: Point): Point {
  return { x: at.x, y: contourBounds(slotContour(slot, at)).minY };
}

/**
 * Where slots belong so that a sign hangs straight: level, evenly to both sides of the centre of mass (one: right above it), as far apart
 * and as high as there is room.
 * @param ground - the part that is hung.
 * @param taken - what lies on it: a slot below an upper part cannot be reached.
 * @returns as many as asked for; none when there is no room above the centre of mass.
 * @remarks Every place of a grid is judged by its outline's corners, the best ones exactly: O(cells x vertices).
 */
export function placeSlots(
  ground: Region,
  taken: readonly Region[],
  slot: SlotKind,
  count: 1 | 2,
  centre: Point,
): PlacedSlot[] {
  const room = offsetRegions(subtractRegions([ground], taken), -slot.clear);
  const box = ringBounds(ground.outer);
  const half = (box.maxX - box.minX) / 2;
  const isRough = (at: Point): boolean => isRoughlyFree(slot, at, room);
  let candidates: { readonly places: readonly Point[]; readonly score: number }[] = [];
  for (let y = box.minY; y < centre.y; y += STEP_MM) {
    const high = (centre.y - y) / (box.maxY - box.minY);
    if (count === 1) {
      const at = { x: centre.x, y };
      if (isRough(at)) candidates.push({ places: [at], score: high });
      continue;
    }
    for (let apart = half; apart > slot.width; apart -= STEP_MM) {
      const places = [
        { x: centre.x - apart, y },
        { x: centre.x + apart, y },
      ];
      if (!places.every(isRough)) continue;
      candidates.push({ places, score: apart / half + high });
      break;
    }
  }
  candidates = candidates.sort((a, b) => b.score - a.score);
  const found = candidates.find(({ places }) => places.every((at) => isFree(slot, at, room)));
  return (found?.places ?? []).map((at) => ({ at, bearing: bearingOf(slot, at) }));
}

/** What is wrong with a slot at this place, in words; empty when nothing is. */
export function slotFaults(ground: Region, taken: readonly Region[], slot: SlotKind, at: Point): string[] {
  const own = [slotRegion(slot, at)];
  const grown = offsetRegions(own, slot.clear - FLATTEN_TOLERANCE_MM);
  const covered = regionsArea(own) - regionsArea(subtractRegions(own, taken));
  if (covered > 0.01) return ['is covered by a part on top of it: it cannot be reached'];
  if (regionsArea(subtractRegions(own, [ground])) > 0.01) return ['lies beyond the part that it is cut in'];
  if (regionsArea(subtractRegions(grown, [ground])) > 0.01) return [`comes nearer than ${slot.clear} mm to an edge`];
  if (regionsArea(grown) - regionsArea(subtractRegions(grown, taken)) > 0.01)
    return [`comes nearer than ${slot.clear} mm to a part on top`];
  return [];
}

function isFree(slot: SlotKind, at: Point, room: readonly Region[]): boolean {
  return regionsArea(subtractRegions([slotRegion(slot, at)], room)) < 1e-6;
}

function isRoughlyFree(slot: SlotKind, at: Point, room: readonly Region[]): boolean {
  const { minX, minY, maxX, maxY } = contourBounds(slotContour(slot, at));
  const y = (minY + maxY) / 2;
  const points: Point[] = [
    { x: minX, y },
    { x: maxX, y },
    { x: at.x, y: minY },
    { x: at.x, y: maxY },
  ];
  return room.some((region) => points.every((point) => isInRegion(region, point.x, point.y)));
}

/** The area of one slot. */
export function slotRegion(slot: SlotKind, at: Point): Region {
  const outer = reversedRing(flattenContour(slotContour(slot, at), FLATTEN_TOLERANCE_MM));
  return { outer, holes: [] };
}

/** Clockwise in numbers (negative area): along the top to the left, round, along the bottom to the right, round. */
function lyingSlot({ width, height }: SlotKind, { x, y }: Point): Contour {
  const r = Math.min(width, height) / 2;
  const reach = Math.max(0, Math.max(width, height) / 2 - r);
  const isLying = width >= height;
  const [dx, dy] = isLying ? [reach, 0] : [0, reach];
  const ends = [
    { x: x - dx, y: y - dy },
    { x: x + dx, y: y + dy },
  ] as const;
  const side = (end: Point, sign: 1 | -1): Point =>
    isLying ? { x: end.x, y: end.y - sign * r } : { x: end.x + sign * r, y: end.y };
  const start = side(ends[1], 1);
  const arc = (end: Point, to: Point) => ({ kind: 'arc' as const, to, centre: end, radius: r, sweep: -Math.PI });
  const straight = (to: Point) => ({ kind: 'line' as const, to });
  const isRound = reach === 0;
  return {
    start,
    segments: [
      ...(isRound ? [] : [straight(side(ends[0], 1))]),
      arc(ends[0], side(ends[0], -1)),
      ...(isRound ? [] : [straight(side(ends[1], -1))]),
      arc(ends[1], start),
    ],
    closed: true,
  };
}

/** The slit ends half a head above the hole, so that the shaft has a seat of its own. */
function keyhole({ width, height }: SlotKind, { x, y }: Point): Contour {
  const head = width / 2;
  const shaft = Math.min(height / 2, head * 0.9);
  const middle = { x, y: y + head / 2 };
  const seat = { x, y: y - head / 2 };
  const meets = Math.sqrt(head * head - shaft * shaft);
  const right = { x: x + shaft, y: middle.y - meets };
  const left = { x: x - shaft, y: middle.y - meets };
  const opening = 2 * Math.asin(shaft / head);
  return {
    start: right,
    segments: [
      { kind: 'line', to: { x: x + shaft, y: seat.y } },
      { kind: 'arc', to: { x: x - shaft, y: seat.y }, centre: seat, radius: shaft, sweep: -Math.PI },
      { kind: 'line', to: left },
      { kind: 'arc', to: right, centre: middle, radius: head, sweep: -(2 * Math.PI - opening) },
    ],
    closed: true,
  };
}
