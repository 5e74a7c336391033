/** Working memory of one grid, used again by every search on it: clearing costs more than searching a narrow band. */
export class RouteMemory {
  readonly dist: Float64Array;
  readonly from: Int32Array;
  /** What is known of each cell: `open` or `barred` in this search, or something older. */
  readonly known: Int32Array;
  readonly heap = new MinHeap();
  private search = 0;

  constructor(cells: number) {
    this.dist = new Float64Array(cells);
    this.from = new Int32Array(cells);
    this.known = new Int32Array(cells);
  }

  begin(): void {
    this.search++;
    this.heap.size = 0;
  }

  get open(): number {
    return 2 * this.search + 1;
  }

  get barred(): number {
    return 2 * this.search;
  }

  learn(cell: number, isOpen: boolean): void {
    this.known[cell] = isOpen ? this.open : this.barred;
    this.dist[cell] = Infinity;
    this.from[cell] = -1;
  }
}

/** A binary heap of (key, cell). */
class MinHeap {
  private keys = new Float64Array(1024);
  private cells = new Int32Array(1024);
  size = 0;

  topKey(): number {
    return this.keys[0]!;
  }

  push(key: number, cell: number): void {
    if (this.size === this.keys.length) {
      const keys = new Float64Array(2 * this.size);
      keys.set(this.keys);
      this.keys = keys;
      const cells = new Int32Array(2 * this.size);
      cells.set(this.cells);
      this.cells = cells;
    }
    let i = this.size++;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (this.keys[parent]! <= key) break;
      this.keys[i] = this.keys[parent]!;
      this.cells[i] = this.cells[parent]!;
      i = parent;
    }
    this.keys[i] = key;
    this.cells[i] = cell;
  }

  pop(): number {
    const top = this.cells[0]!;
    const key = this.keys[--this.size]!;
    const cell = this.cells[this.size]!;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= this.size) break;
      if (child + 1 < this.size && this.keys[child + 1]! < this.keys[child]!) child++;
      if (this.keys[child]! >= key) break;
      this.keys[i] = this.keys[child]!;
      this.cells[i] = this.cells[child]!;
      i = child;
    }
    this.keys[i] = key;
    this.cells[i] = cell;
    return top;
  }
}
