import { latticeUnit, WHOLE } from '@underlap/nest/gapless/lattice';
import type { Layout } from '@underlap/nest/search/layout';
import { type MapKernel, mapKernel } from './map-kernel.ts';

/** Numbers behind each row of a table or map, so that whole fours can be added. */
export const PAD = 3;
/** Cells of the strip that a raster is chosen for when the pieces give none. */
const CELLS = 4000;
/** A lattice of the pieces' own with up to this many cells is used as the raster. */
const MOST_CELLS = 12_000;
/** A lattice with fewer cells is divided. */
const FEW_CELLS = 1400;
/** Numbers kept in depth tables at most (4 bytes each). */
const MOST_NUMBERS = 24_000_000;
/** Table entries made in the time of one evaluation. */
const ENTRIES_PER_EVALUATION = 4;

/**
 * Places on a square raster. A piece lies on it with the least corner of its bounding box; depths of one pose against another at
 * all whole offsets are kept as tables, made when first asked for. Where the corners of all pieces in all their poses are whole
 * multiples of one unit apart, the raster has that unit, and layouts on it can be exact to the last contact.
 */
export class RasterSpace {
  readonly unit: number;
  readonly kernel: MapKernel = mapKernel();
  /** Width and height of each pose with its clearance, whole units rounded up: what tables reach over. */
  readonly wide: Int32Array;
  readonly high: Int32Array;
  readonly #layout: Layout;
  readonly #tolerance: number;
  readonly #tables: Int32Array;
  readonly #poses: number;

  /** Whether the unit is that of the pieces' own lattice (or a whole part of it). */
  readonly isLattice: boolean;

  constructor(layout: Layout, unit: number, tolerance: number, isLattice: boolean) {
    this.#layout = layout;
    this.isLattice = isLattice;
    this.unit = unit;
    this.#tolerance = tolerance;
    const { poses, forms } = layout.model;
    this.#poses = poses.length;
    const units = (length: number) => Math.ceil(length / unit - WHOLE);
    this.wide = Int32Array.from(poses, (pose) => units(pose.maxX - pose.minX + forms[pose.form]!.clearance));
    this.high = Int32Array.from(poses, (pose) => units(pose.maxY - pose.minY + forms[pose.form]!.clearance));
    this.#tables = new Int32Array(poses.length * poses.length).fill(-1);
  }

  /** Number of places along a side for a pose of that extent; 0 or less = too large. */
  places(side: number, extent: number): number {
    return Math.floor((side - extent) / this.unit + WHOLE) + 1;
  }

  /**
   * Where in the kernel's numbers the depths (in units) of pose `moving` against pose `fixed` are, by the offset (dx, dy) of
   * their boxes' least corners: row-major from dx = 1 - wide[moving], dy = 1 - high[moving]. A row has
   * wide[fixed] + wide[moving] - 1 numbers and PAD zeros. Touching is 0.
   */
  table(fixed: number, moving: number): number {
    const known = this.#tables[fixed * this.#poses + moving]!;
    return known >= 0 ? known : this.#make(fixed, moving);
  }

  #make(fixed: number, moving: number): number {
    const { unit, wide, high, kernel } = this;
    const { model } = this.#layout;
    const a = model.poses[fixed]!;
    const b = model.poses[moving]!;
    const field = model.fieldBetween(fixed, moving);
    const isSwapped = a.form > b.form;
    const base = isSwapped ? b : a;
    const sign = isSwapped ? -1 : 1;
    const columns = wide[fixed]! + wide[moving]! - 1;
    const rows = high[fixed]! + high[moving]! - 1;
    const stride = columns + PAD;
    const start = kernel.reserve(stride * rows);
    const { numbers } = kernel;
    for (let r = 0; r < rows; r++) {
      const wy = sign * ((r + 1 - high[moving]!) * unit - b.minY + a.minY);
      for (let c = 0; c < columns; c++) {
        const wx = sign * ((c + 1 - wide[moving]!) * unit - b.minX + a.minX);
        const x = base.cos * wx + base.sin * wy;
        const y = base.cos * wy - base.sin * wx;
        const depth = model.fields.depth(field, x, y);
        const isFree = depth <= this.#tolerance || (model.seesSlots && model.isSlot(fixed, moving, x, y));
        numbers[start + r * stride + c] = isFree ? 0 : depth / unit;
      }
    }
    this.#layout.evaluations += Math.ceil((columns * rows) / ENTRIES_PER_EVALUATION);
    this.#tables[fixed * this.#poses + moving] = start;
    return start;
  }
}

/**
 * The raster for a strip's pieces, or null where it would not pay: obstacles, or tables too large for the memory allowed.
 * @param length - of the strip now.
 */
export function rasterFor(layout: Layout, height: number, length: number, tolerance: number): RasterSpace | null {
  const { model } = layout;
  if (layout.bodies > layout.items || layout.items < 2) return null;
  const poses = new Set<number>();
  for (const list of model.itemPoses) for (const pose of list) poses.add(pose);
  const cells = (unit: number) => (height / unit) * (length / unit);
  const own = latticeUnit(layout, poses, height, (unit) => cells(unit) <= MOST_CELLS);
  // A coarse lattice is divided: a whole part of its unit keeps its places.
  const parts = own > 0 && cells(own) < FEW_CELLS ? Math.ceil(Math.sqrt(FEW_CELLS / cells(own))) : 1;
  const unit = own > 0 ? own / parts : Math.sqrt((height * length) / CELLS);
  const space = new RasterSpace(layout, unit, tolerance, own > 0);
  let numbers = 0;
  for (const a of poses) {
    for (const b of poses) numbers += (space.wide[a]! + space.wide[b]! + PAD) * (space.high[a]! + space.high[b]!);
    if (numbers > MOST_NUMBERS) return null;
  }
  if (own > 0) model.seeSlots(tolerance);
  return space;
}
