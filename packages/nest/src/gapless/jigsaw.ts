import { turnedRegion } from '../nfp/turned.ts';
import type { Model } from '../search/model.ts';
import type { Random } from '../search/random.ts';
import {
  convexCorners,
  crossesBoundary,
  type FreeBoundary,
  type FreeCorner,
  flushLength,
  placeRing,
  rectangleBoundary,
} from './free-boundary.ts';

/** A pose with what matching needs: its rings about the origin, and at each corner the leaving direction and the angle. */
interface JigsawPose {
  readonly pose: number;
  readonly rings: readonly Float64Array[];
  readonly perimeter: number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Per corner: x, y, direction x, direction y, interior angle. */
  readonly corners: Float64Array;
}

/** Items with the same poses, so that copies are tried once. */
interface JigsawKind {
  readonly poses: readonly JigsawPose[];
  readonly items: number[];
  readonly area: number;
}

/** Where an item goes in a filling: the origin of one of the model's poses. */
export interface FillPlace {
  readonly item: number;
  readonly pose: number;
  readonly x: number;
  readonly y: number;
}

export interface FillBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Fills boards from a stock of items, one after another. */
export interface Filler {
  /** Placements tried so far. */
  readonly tries: number;
  /** The last `fill` has proved that there is none. */
  readonly isExhausted: boolean;
  /**
   * Look for a filling of a rectangle by items not yet taken.
   * @param mostTries - placements tried before giving up.
   * @param noise - how far from the most promising order placements are tried, 0 = not at all.
   * @returns the places, or null.
   */
  fill(box: FillBox, mostTries: number, noise: number): FillPlace[] | null;
  /** Take items out of play for good. */
  take(places: readonly FillPlace[]): void;
}

interface Choice {
  readonly kind: number;
  readonly pose: JigsawPose;
  readonly x: number;
  readonly y: number;
  rank: number;
}

/** Angles closer than this fit each other, radians: corners of parts in whole numbers differ by more. */
const ANGLE_FIT = 2e-6;
const CORNER = 5;

/**
 * Fills rectangles without any waste by exact matching, as one does a jigsaw: in a gapless filling every convex corner of the
 * free area has a piece with a corner there, flush along the boundary. The corner with the fewest such pieces is filled
 * first; a corner with none proves a dead end. Depth-first with random restarts.
 */
export class Jigsaw implements Filler {
  readonly #kinds: JigsawKind[];
  readonly #snap: number;
  readonly #random: Random;
  tries = 0;
  readonly isExhausted = false;

  constructor(model: Model, items: readonly number[], snap: number, random: Random) {
    this.#snap = snap;
    this.#random = random;
    const byPoses = new Map<Int32Array, JigsawKind>();
    for (const item of items) {
      const list = model.itemPoses[item]!;
      const known = byPoses.get(list);
      if (known) {
        known.items.push(item);
        continue;
      }
      const poses = Array.from(list, (pose) => jigsawPose(model, pose));
      byPoses.set(list, { poses, items: [item], area: model.forms[model.poses[list[0]!]!.form]!.area });
    }
    this.#kinds = [...byPoses.values()];
  }

  take(places: readonly FillPlace[]): void {
    for (const { item } of places) {
      for (const kind of this.#kinds) {
        const at = kind.items.indexOf(item);
        if (at >= 0) kind.items.splice(at, 1);
      }
    }
  }

  /** A gapless filling. */
  fill(box: FillBox, mostTries: number, noise: number): FillPlace[] | null {
    const counts = Int32Array.from(this.#kinds, (kind) => kind.items.length);
    const chosen: Choice[] = [];
    const stopAt = this.tries + mostTries;
    const search = (free: FreeBoundary): boolean => {
      if (free.length === 0) return true;
      const choices = this.#tightest(free, counts, box, noise);
      for (const choice of choices) {
        if (this.tries++ >= stopAt) return false;
        const next = free.slice();
        for (const ring of choice.pose.rings) placeRing(next, ring, choice.x, choice.y, this.#snap);
        counts[choice.kind]!--;
        chosen.push(choice);
        if (search(next)) return true;
        chosen.pop();
        counts[choice.kind]!++;
      }
      return false;
    };
    if (!search(rectangleBoundary(box.minX, box.minY, box.maxX, box.maxY))) return null;
    const used = new Int32Array(this.#kinds.length);
    return chosen.map((choice) => ({
      item: this.#kinds[choice.kind]!.items[used[choice.kind]!++]!,
      pose: choice.pose.pose,
      x: choice.x,
      y: choice.y,
    }));
  }

  /** The placements at the convex corner that has fewest of them, best first; empty when some corner has none. */
  #tightest(free: FreeBoundary, counts: Int32Array, box: FillBox, noise: number): Choice[] {
    const corners = convexCorners(free, this.#snap);
    let best: Choice[] | null = null;
    for (const corner of corners) {
      const choices = this.#choicesAt(corner, free, counts, box, best === null ? Infinity : best.length);
      if (choices === null) continue;
      if (choices.length === 0) return [];
      best = choices;
    }
    if (best === null) return [];
    for (const choice of best) {
      let flush = 0;
      for (const ring of choice.pose.rings) flush += flushLength(free, ring, choice.x, choice.y, this.#snap);
      choice.rank = flush / choice.pose.perimeter + noise * this.#random();
    }
    return best.sort((a, b) => b.rank - a.rank);
  }

  /** All placements at one corner; null as soon as there are `enough` of them. */
  #choicesAt(
    corner: FreeCorner,
    free: FreeBoundary,
    counts: Int32Array,
    box: FillBox,
    enough: number,
  ): Choice[] | null {
    const snap = this.#snap;
    const out: Choice[] = [];
    for (let k = 0; k < counts.length; k++) {
      if (counts[k]! === 0) continue;
      for (const pose of this.#kinds[k]!.poses) {
        const { corners } = pose;
        for (let c = 0; c < corners.length; c += CORNER) {
          if (corners[c + 4]! > corner.angle + ANGLE_FIT) continue;
          const dx = corners[c + 2]!;
          const dy = corners[c + 3]!;
          if (Math.abs(dx * corner.outY - dy * corner.outX) > ANGLE_FIT || dx * corner.outX + dy * corner.outY < 0)
            continue;
          const x = corner.x - corners[c]!;
          const y = corner.y - corners[c + 1]!;
          if (x + pose.minX < box.minX - snap || x + pose.maxX > box.maxX + snap) continue;
          if (y + pose.minY < box.minY - snap || y + pose.maxY > box.maxY + snap) continue;
          let crosses = false;
          for (const ring of pose.rings) crosses = crosses || crossesBoundary(free, ring, x, y, snap);
          if (crosses) continue;
          out.push({ kind: k, pose, x, y, rank: 0 });
          if (out.length >= enough) return null;
        }
      }
    }
    return out;
  }
}

function jigsawPose(model: Model, pose: number): JigsawPose {
  const { form, turnDeg, minX, minY, maxX, maxY } = model.poses[pose]!;
  const region = turnedRegion(model.forms[form]!.region, turnDeg);
  const rings = [region.outer, ...region.holes];
  const corners: number[] = [];
  let perimeter = 0;
  for (const ring of rings) {
    const n = ring.length;
    for (let i = 0; i < n; i += 2) {
      const p = (i + n - 2) % n;
      const q = (i + 2) % n;
      const inX = ring[p]! - ring[i]!;
      const inY = ring[p + 1]! - ring[i + 1]!;
      const outX = ring[q]! - ring[i]!;
      const outY = ring[q + 1]! - ring[i + 1]!;
      const length = Math.hypot(outX, outY);
      perimeter += length;
      let angle = Math.atan2(outX * inY - outY * inX, outX * inX + outY * inY);
      if (angle < 0) angle += 2 * Math.PI;
      corners.push(ring[i]!, ring[i + 1]!, outX / length, outY / length, angle);
    }
  }
  return { pose, rings, perimeter, minX, minY, maxX, maxY, corners: Float64Array.from(corners) };
}
