import type { Region } from '@underlap/geometry/region';
import { type NoFit, noFit } from './no-fit.ts';
import { turnedRegion } from './turned.ts';

/** Numbers kept at most, 8 bytes each; beyond that all polygons are dropped and made again when asked for. */
const MOST_NUMBERS = 12_000_000;

/** A shape that the cache has seen; two regions with the same coordinates are one shape. */
export type ShapeId = number & { readonly brand: 'shape' };

/**
 * No-fit polygons made so far, by shapes and relative turn, for searches that follow one another in one thread: runs of one job, and
 * layouts of one sign on other boards or in other batches, ask for the same pairs again and again.
 * A polygon from here is the very one that would be made afresh, so no result depends on what is kept.
 */
export class NoFitCache {
  readonly #shapes = new Map<string, ShapeId>();
  readonly #polygons = new Map<string, NoFit>();
  #numbers = 0;

  /** Name of a shape, by its exact coordinates. O(vertices). */
  shapeOf(region: Region): ShapeId {
    const key = [region.outer, ...region.holes].map((ring) => ring.join(' ')).join(';');
    const known = this.#shapes.get(key);
    if (known !== undefined) return known;
    const made = this.#shapes.size as ShapeId;
    this.#shapes.set(key, made);
    return made;
  }

  /** The no-fit polygon of `fixed` and `moving` turned by `turnDeg` (as `normalTurn` writes it), both in their own frames. */
  polygon(fixed: Region, fixedId: ShapeId, moving: Region, movingId: ShapeId, turnDeg: number): NoFit {
    const key = `${fixedId} ${movingId} ${turnDeg}`;
    const known = this.#polygons.get(key);
    if (known !== undefined) return known;
    const made = noFit(fixed, turnedRegion(moving, turnDeg));
    for (const ring of made.rings) this.#numbers += ring.length;
    if (this.#numbers > MOST_NUMBERS) {
      this.#polygons.clear();
      this.#numbers = made.rings.reduce((sum, ring) => sum + ring.length, 0);
    }
    this.#polygons.set(key, made);
    return made;
  }
}
