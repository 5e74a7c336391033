import type { Bounds } from '@underlap/geometry/ring';

/** Boxes in a grid, to find those that hold a point. Boxes that would fill much of the grid are kept aside, and those so far away in cells that counting on does not change the number. */
export class BoxIndex<T> {
  private readonly cells = new Map<string, T[]>();
  private readonly large: { readonly bounds: Bounds; readonly value: T }[] = [];
  private readonly cell: number;

  /** @param cell - side of a grid cell; about the size of a usual box. */
  constructor(cell: number) {
    this.cell = cell > 0 && Number.isFinite(cell) ? cell : 1;
  }

  add(bounds: Bounds, value: T): void {
    const [left, top, right, bottom] = [bounds.minX, bounds.minY, bounds.maxX, bounds.maxY].map((side) =>
      Math.floor(side / this.cell),
    ) as [number, number, number, number];
    const isCountable = [left, top, right, bottom].every(Number.isSafeInteger);
    if (!isCountable || (right - left + 1) * (bottom - top + 1) > MOST_CELLS) {
      this.large.push({ bounds, value });
      return;
    }
    for (let column = left; column <= right; column++) {
      for (let row = top; row <= bottom; row++) {
        const key = `${column},${row}`;
        const list = this.cells.get(key);
        if (list === undefined) this.cells.set(key, [value]);
        else list.push(value);
      }
    }
  }

  /** Values whose boxes may hold the point. */
  at(x: number, y: number): T[] {
    const near = this.cells.get(`${Math.floor(x / this.cell)},${Math.floor(y / this.cell)}`) ?? [];
    const far = this.large.filter(
      ({ bounds }) => x >= bounds.minX && x <= bounds.maxX && y >= bounds.minY && y <= bounds.maxY,
    );
    return [...near, ...far.map(({ value }) => value)];
  }
}

const MOST_CELLS = 64;
