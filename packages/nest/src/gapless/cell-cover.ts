import { isInRegion } from '@underlap/geometry/region';
import { turnedRegion } from '../nfp/turned.ts';
import type { Model } from '../search/model.ts';
import type { Random } from '../search/random.ts';
import { CoverLinks } from './cover-links.ts';
import type { FillBox, Filler, FillPlace } from './jigsaw.ts';

/** Cells of a board, and cells of all placements together, that are still worth it. */
const MOST_CELLS = 6000;
const MOST_NODES = 3_000_000;
/** Lengths this near to whole units are whole, in units. */
const WHOLE = 1e-4;

/** A pose as the cells it covers, from the least corner of its box. */
interface CellPose {
  readonly pose: number;
  readonly columns: number;
  readonly rows: number;
  /** Column and row of each cell, one after the other. */
  readonly cells: Int32Array;
}

/** Items with the same poses. */
interface CellKind {
  readonly poses: readonly CellPose[];
  readonly items: number[];
}

/**
 * Fills boards with pieces made of whole square cells: every cell of the board is covered once, which is an exact cover problem
 * (Knuth, Dancing Links, 2000: Algorithm X, the cell with the fewest placements first). Cells that stay free are pieces of one
 * cell, as many as the board's area leaves.
 */
export class CellCover implements Filler {
  readonly #model: Model;
  readonly #kinds: CellKind[];
  readonly #unit: number;
  readonly #random: Random;
  readonly #tolerance: number;
  /** Cells that may stay free, over all boards together. */
  #slack: number;
  tries = 0;
  isExhausted = false;

  private constructor(model: Model, kinds: CellKind[], unit: number, slack: number, tolerance: number, random: Random) {
    this.#model = model;
    this.#kinds = kinds;
    this.#unit = unit;
    this.#slack = slack;
    this.#tolerance = tolerance;
    this.#random = random;
  }

  /**
   * @param unit - side of a cell: all corners of all poses lie whole units from their boxes' least corners.
   * @param slack - area that may stay free, over all boards.
   * @param tolerance - how far the sides of a board may be from whole units.
   * @returns null when some item is no union of cells in any pose.
   */
  static of(
    model: Model,
    items: readonly number[],
    unit: number,
    slack: number,
    tolerance: number,
    random: Random,
  ): CellCover | null {
    const byPoses = new Map<Int32Array, CellKind>();
    for (const item of items) {
      const list = model.itemPoses[item]!;
      const known = byPoses.get(list);
      if (known !== undefined) {
        known.items.push(item);
        continue;
      }
      const poses = differing([...list].flatMap((pose) => cellPose(model, pose, unit) ?? []));
      if (poses.length === 0) return null;
      byPoses.set(list, { poses, items: [item] });
    }
    const cells = Math.floor(slack / unit ** 2 + WHOLE);
    return new CellCover(model, [...byPoses.values()], unit, cells, tolerance, random);
  }

  fill({ minX, minY, maxX, maxY }: FillBox, mostTries: number): FillPlace[] | null {
    const unit = this.#unit;
    const columns = Math.round((maxX - minX) / unit);
    const rows = Math.round((maxY - minY) / unit);
    const isWhole =
      Math.abs(columns * unit - (maxX - minX)) <= this.#tolerance &&
      Math.abs(rows * unit - (maxY - minY)) <= this.#tolerance;
    this.isExhausted = false;
    if (!isWhole || columns * rows > MOST_CELLS) return null;
    const kinds = this.#kinds
      .filter((kind) => kind.items.length > 0)
      .sort((a, b) => b.poses[0]!.cells.length - a.poses[0]!.cells.length || a.poses.length - b.poses.length);
    const links = new CoverLinks(
      columns * rows,
      kinds.map((kind) => kind.items.length).concat(this.#slack > 0 ? [this.#slack] : []),
    );
    const options: { kind: number; pose: CellPose; column: number; row: number }[] = [];
    let nodes = 0;
    for (const [kind, { poses }] of kinds.entries()) {
      for (const pose of poses) {
        nodes += Math.max(0, columns - pose.columns + 1) * Math.max(0, rows - pose.rows + 1) * pose.cells.length;
        if (nodes > MOST_NODES) return null;
        for (let column = 0; column + pose.columns <= columns; column++) {
          for (let row = 0; row + pose.rows <= rows; row++) {
            const covered = Array.from({ length: pose.cells.length / 2 }, (_, i) => {
              return (column + pose.cells[2 * i]!) * rows + row + pose.cells[2 * i + 1]!;
            });
            links.add(kind, covered);
            options.push({ kind, pose, column, row });
          }
        }
      }
    }
    if (this.#slack > 0) for (let cell = 0; cell < columns * rows; cell++) links.add(kinds.length, [cell]);
    const found = links.solve(mostTries, this.#random);
    this.tries += links.steps;
    this.isExhausted = found === null && !links.isCutShort;
    if (found === null) return null;
    this.#slack -= found.filter((option) => option >= options.length).length;
    const used = new Int32Array(kinds.length);
    return found
      .filter((option) => option < options.length)
      .map((option) => {
        const { kind, pose, column, row } = options[option]!;
        const own = this.#model.poses[pose.pose]!;
        return {
          item: kinds[kind]!.items[used[kind]!++]!,
          pose: pose.pose,
          x: minX + column * unit - own.minX,
          y: minY + row * unit - own.minY,
        };
      });
  }

  take(places: readonly FillPlace[]): void {
    for (const { item } of places) {
      for (const kind of this.#kinds) {
        const at = kind.items.indexOf(item);
        if (at >= 0) kind.items.splice(at, 1);
      }
    }
  }
}

/** The cells of a pose; null when they do not make up its area. */
function cellPose(model: Model, pose: number, unit: number): CellPose | null {
  const { form, turnDeg, minX, minY, maxX, maxY } = model.poses[pose]!;
  const region = turnedRegion(model.forms[form]!.region, turnDeg);
  const columns = Math.round((maxX - minX) / unit);
  const rows = Math.round((maxY - minY) / unit);
  if (columns * rows > MOST_CELLS) return null;
  const cells: number[] = [];
  for (let column = 0; column < columns; column++) {
    for (let row = 0; row < rows; row++) {
      if (isInRegion(region, minX + (column + 0.5) * unit, minY + (row + 0.5) * unit)) cells.push(column, row);
    }
  }
  const isUnion = Math.abs((cells.length / 2) * unit ** 2 - model.forms[form]!.area) <= WHOLE * unit ** 2;
  const isStraight = [region.outer, ...region.holes].every((ring) => hasRightAngles(ring, WHOLE * unit));
  return isUnion && isStraight ? { pose, columns, rows, cells: Int32Array.from(cells) } : null;
}

function hasRightAngles(ring: Float64Array, noise: number): boolean {
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    if (Math.abs(ring[j]! - ring[i]!) > noise && Math.abs(ring[j + 1]! - ring[i + 1]!) > noise) return false;
  }
  return true;
}

/** Without poses that cover the same cells as an earlier one. */
function differing(poses: readonly CellPose[]): CellPose[] {
  const seen = new Set<string>();
  return poses.filter(({ cells }) => {
    const key = cells.join(' ');
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
