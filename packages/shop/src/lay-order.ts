import { distancePointToSegment } from '@underlap/geometry/distance';
import { type Region, regionBounds } from '@underlap/geometry/region';
import type { Bounds, Ring } from '@underlap/geometry/ring';
import type { BuildPlace } from '@underlap/stack/levels';

/** Edges nearer than this leave no room for a finger or a crooked start, mm: about what two cuts take away. */
const NEAR_MM = 0.6;

/** Edges are looked at in stretches of this length, mm. */
const STRETCH_MM = 3;

/** A part has to come away from all its neighbours at this slant at least, degrees; along a wall it would rub. */
const LEAST_SLANT_DEG = 3;

/** Heights nearer than this are one, mm: sums of thicknesses are not exact. */
const SAME_HEIGHT_MM = 1e-6;

/** A part in the order in which it is laid. */
export interface LaidPart {
  readonly place: BuildPlace;
  /** Parts that are down already and stand close beside it. */
  readonly beside: readonly string[];
  /** Has it to go between parts that are down, from straight above, because no order avoids it (an inlay, the last of a ring)? */
  readonly isEnclosed: boolean;
}

/**
 * The order in which parts are laid, from the ground up, so that none has to be squeezed between or below parts that are down.
 *
 * Heights decide first: what lies below something is laid before it, also where a thick neighbour makes a later layer lie lower.
 * Within one height the order is found backwards: whatever can be taken away sideways without rubbing at a neighbour is taken
 * away, equal parts together; a part that is taken away only frees others, so whatever can be avoided is.
 * @param classOf - parts of one class stay together where they can.
 * @returns all parts whose place is known.
 * @remarks O(pairs of parts that stand beside one another x their edges).
 */
export function layOrder(places: readonly BuildPlace[], classOf: (partId: string) => string): LaidPart[] {
  const known = places.filter(({ part }) => part.place === 'assembled');
  const heights = [...new Set(known.map(heightOf))].sort((a, b) => a - b);
  const boxes = new Map(known.map((place) => [place.part.id, regionBounds(place.part.region)]));
  const out: LaidPart[] = [];
  const down: BuildPlace[] = [];
  for (const height of heights) {
    const layer = inClasses(
      known.filter((place) => heightOf(place) === height),
      classOf,
    );
    const contacts = contactsOf(layer, [...down, ...layer], boxes);
    out.push(...orderOfLayer(layer, down, contacts, classOf));
    down.push(...layer);
  }
  return out;
}

const heightOf = (place: BuildPlace): number => Math.round(place.bottomMm / SAME_HEIGHT_MM);

/** Equal parts side by side, at the place of their first. */
function inClasses(layer: readonly BuildPlace[], classOf: (partId: string) => string): BuildPlace[] {
  const classes = new Map<string, BuildPlace[]>();
  for (const place of layer) {
    const name = classOf(place.part.id);
    classes.set(name, [...(classes.get(name) ?? []), place]);
  }
  return [...classes.values()].flat();
}

/** Angles, degrees, in which a part moves away from each of its neighbours. */
type Contacts = ReadonlyMap<string, ReadonlyMap<string, readonly number[]>>;

function orderOfLayer(
  layer: readonly BuildPlace[],
  down: readonly BuildPlace[],
  contacts: Contacts,
  classOf: (partId: string) => string,
): LaidPart[] {
  const left = [...layer];
  const present = new Set([...down, ...layer].map(({ part }) => part.id));
  const backwards: LaidPart[] = [];
  while (left.length > 0) {
    const last = backwards.at(-1);
    const isFree = (place: BuildPlace): boolean => canComeAway(anglesOf(place.part.id, contacts, present));
    const sameClass = (place: BuildPlace): boolean =>
      last !== undefined && classOf(place.part.id) === classOf(last.place.part.id);
    const next = left.findLast((place) => sameClass(place) && isFree(place)) ?? left.findLast(isFree) ?? left.at(-1)!;
    const beside = [...(contacts.get(next.part.id)?.keys() ?? [])].filter((id) => present.has(id));
    backwards.push({ place: next, beside, isEnclosed: !isFree(next) });
    present.delete(next.part.id);
    left.splice(left.indexOf(next), 1);
  }
  return backwards.reverse();
}

function anglesOf(partId: string, contacts: Contacts, present: ReadonlySet<string>): number[] {
  return [...(contacts.get(partId) ?? [])].flatMap(([id, angles]) => (present.has(id) ? [...angles] : []));
}

/** Is there a direction that leads away from all edges at once? True when their normals leave more than half a circle free. */
function canComeAway(angles: readonly number[]): boolean {
  if (angles.length === 0) return true;
  const sorted = [...angles].sort((a, b) => a - b);
  const gaps = sorted.map((angle, at) => (at === 0 ? angle + 360 - sorted.at(-1)! : angle - sorted[at - 1]!));
  return Math.max(...gaps) > 180 + 2 * LEAST_SLANT_DEG;
}

function contactsOf(
  layer: readonly BuildPlace[],
  all: readonly BuildPlace[],
  boxes: ReadonlyMap<string, Bounds>,
): Contacts {
  return new Map(
    layer.map((place) => {
      const own = boxes.get(place.part.id)!;
      const beside = all.filter(
        (other) =>
          other !== place &&
          other.topMm > place.bottomMm + SAME_HEIGHT_MM &&
          place.topMm > other.bottomMm + SAME_HEIGHT_MM &&
          areNear(own, boxes.get(other.part.id)!),
      );
      const angles = beside.map(
        (other) => [other.part.id, normalsAgainst(place.part.region, other.part.region)] as const,
      );
      return [place.part.id, new Map(angles.filter(([, own]) => own.length > 0))];
    }),
  );
}

function areNear(a: Bounds, b: Bounds): boolean {
  return (
    a.minX - NEAR_MM < b.maxX && b.minX - NEAR_MM < a.maxX && a.minY - NEAR_MM < b.maxY && b.minY - NEAR_MM < a.maxY
  );
}

/** Directions away from `other`, one for every stretch of the edge that lies against it. */
function normalsAgainst(region: Region, other: Region): number[] {
  const angles: number[] = [];
  const walls = [other.outer, ...other.holes];
  for (const ring of [region.outer, ...region.holes]) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const dx = ring[i]! - ring[j]!;
      const dy = ring[i + 1]! - ring[j + 1]!;
      const length = Math.hypot(dx, dy);
      const parts = Math.ceil(length / STRETCH_MM);
      for (let k = 0; k < parts; k++) {
        const u = (k + 0.5) / parts;
        // The material lies on the left of the edge, so this points away from what stands against it.
        const away = { x: -dy / length, y: dx / length };
        if (isAgainst(ring[j]! + u * dx, ring[j + 1]! + u * dy, away, walls)) {
          angles.push((Math.atan2(away.y, away.x) * 180) / Math.PI);
        }
      }
    }
  }
  return angles;
}

/** Does a wall stand close before the edge, and not merely beside its end? */
function isAgainst(x: number, y: number, away: { x: number; y: number }, walls: readonly Ring[]): boolean {
  const ahead = NEAR_MM;
  return walls.some((wall) => {
    for (let i = 0, j = wall.length - 2; i < wall.length; j = i, i += 2) {
      const [ax, ay, bx, by] = [wall[j]!, wall[j + 1]!, wall[i]!, wall[i + 1]!];
      if (distancePointToSegment(x, y, ax, ay, bx, by) > NEAR_MM) continue;
      // Parallel within 45 degrees: else it is a corner that passes by.
      const along = Math.abs((bx - ax) * away.x + (by - ay) * away.y);
      if (along > Math.SQRT1_2 * Math.hypot(bx - ax, by - ay)) continue;
      const mid = distancePointToSegment(x - ahead * away.x, y - ahead * away.y, ax, ay, bx, by);
      if (mid <= NEAR_MM) return true;
    }
    return false;
  });
}
