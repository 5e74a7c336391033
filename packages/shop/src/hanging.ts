import type { Point } from '@underlap/geometry/point';
import { regionArea } from '@underlap/geometry/region';
import { centroidOf } from '@underlap/stack/centroid';
import type { BuildPlace } from '@underlap/stack/levels';

/** Density of a part's stock, kg/m3, by part id. */
export type DensityOf = (partId: string) => number;

/** An eye sees that a sign leans from about here on, degrees (common practice, no source). */
const SEEN_LEAN_DEG = 0.5;

/** Two points of support nearer than this are one, mm. */
const ONE_POINT_MM = 5;

/** Mass and its centre. */
export interface Mass {
  readonly kg: number;
  /** In the sign's frame, mm, y down. */
  readonly centre: Point;
}

/** How a sign hangs. */
export interface Hang {
  /** Clockwise as seen, degrees; null when it does not hang at all. */
  readonly leanDeg: number | null;
  readonly isStraight: boolean;
  /** Share of the weight on each point, in the order given; null when only one carries. */
  readonly loads: readonly number[] | null;
  /** In sentences. */
  readonly words: readonly string[];
}

/**
 * Mass of a sign: area x thickness x density, part by part; glue and paint are left out.
 * @returns null when no part has a known place.
 */
export function massOf(
  places: readonly BuildPlace[],
  thicknessOf: (partId: string) => number,
  densityOf: DensityOf,
): Mass | null {
  let [kg, x, y] = [0, 0, 0];
  for (const { part } of places) {
    if (part.place !== 'assembled') continue;
    const own = (regionArea(part.region) * thicknessOf(part.id) * densityOf(part.id)) / 1e9;
    const centre = centroidOf([part.region]);
    kg += own;
    x += own * centre.x;
    y += own * centre.y;
  }
  return kg === 0 ? null : { kg, centre: { x: x / kg, y: y / kg } };
}

/**
 * How a sign with this centre of mass hangs from points on level nails.
 *
 * From one point the centre swings below it: lean = atan(sideways / down). From two, the line between them is level as long as the
 * centre lies between them, and the nails share the weight by the lever rule; else one carries nothing and the sign swings about the other.
 * @param points - where the sign rests on its nails, mm, y down.
 * @remarks Textbook statics; friction is left out, so that what is said to hang straight does so without it.
 */
export function hangFrom(points: readonly Point[], centre: Point): Hang {
  const [left, right] = outermost(points);
  if (left === null) return { leanDeg: null, isStraight: false, loads: null, words: ['It has nothing to hang from.'] };
  if (right === null) return fromOne(left, centre);
  const between = (centre.x - left.x) / (right.x - left.x);
  if (between < 0 || between > 1) {
    const nearer = between < 0 ? left : right;
    const hang = fromOne(nearer, centre);
    return {
      ...hang,
      words: [
        `Its centre of mass lies ${sideways(centre.x - nearer.x)} both slots, so that only the ${between < 0 ? 'left' : 'right'} one carries.`,
        ...hang.words,
      ],
    };
  }
  const leanDeg = -degrees(Math.atan2(right.y - left.y, right.x - left.x));
  const loads = points.map((point) => (point === left ? 1 - between : point === right ? between : 0));
  const isBelow = centre.y > left.y + between * (right.y - left.y);
  const isStraight = Math.abs(leanDeg) <= SEEN_LEAN_DEG && isBelow;
  return {
    leanDeg,
    isStraight,
    loads,
    words: [
      isStraight
        ? 'It hangs straight.'
        : `On level nails it leans ${leanWords(leanDeg)}: one slot lies ${Math.abs(right.y - left.y).toFixed(1)} mm higher than the other.`,
      `The left slot carries ${((1 - between) * 100).toFixed(0)} %, the right one ${(between * 100).toFixed(0)} % of the weight.`,
      ...(isBelow ? [] : [TOP_HEAVY]),
    ],
  };
}

const TOP_HEAVY = 'Its centre of mass lies above what it hangs from: it turns over when it is touched.';

function fromOne(point: Point, centre: Point): Hang {
  const down = centre.y - point.y;
  if (down <= 0) return { leanDeg: null, isStraight: false, loads: null, words: [TOP_HEAVY] };
  const leanDeg = degrees(Math.atan2(centre.x - point.x, down));
  const isStraight = Math.abs(leanDeg) <= SEEN_LEAN_DEG;
  return {
    leanDeg,
    isStraight,
    loads: null,
    words: [
      isStraight
        ? 'It hangs straight.'
        : `It leans ${leanWords(leanDeg)}: its centre of mass lies ${Math.abs(centre.x - point.x).toFixed(1)} mm ${sideways(centre.x - point.x)} what it hangs from.`,
    ],
  };
}

/** The leftmost and the rightmost point; one alone where they are the same. */
function outermost(points: readonly Point[]): [Point | null, Point | null] {
  if (points.length === 0) return [null, null];
  const left = points.reduce((best, next) => (next.x < best.x ? next : best));
  const right = points.reduce((best, next) => (next.x > best.x ? next : best));
  return right.x - left.x < ONE_POINT_MM
    ? [points.reduce((best, next) => (next.y < best.y ? next : best)), null]
    : [left, right];
}

function leanWords(degreesClockwise: number): string {
  return `${Math.abs(degreesClockwise).toFixed(1)} degrees ${degreesClockwise > 0 ? 'clockwise' : 'anticlockwise'}`;
}

function sideways(dx: number): string {
  return dx < 0 ? 'to the left of' : 'to the right of';
}

function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}
