/** Working memory of one grid, used again by every search on it: clearing costs more than searching a narrow band. */
export class RouteMemory {
  readonly dist: Float64Array;
  readonly from: Int32Array;
  /** What is known of each cell: `open` or `barred` in this search, or something older. */
  readonly known: Int32Array;
  /** The search that last made the cell a goal. */
  readonly goal: Int32Array;
  readonly queue = new BucketQueue();
  private search = 0;

  constructor(cells: number) {
    this.dist = new Float64Array(cells);
    this.from = new Int32Array(cells);
    this.known = new Int32Array(cells);
    this.goal = new Int32Array(cells);
  }

  /** @param leastStep - the least that going from a cell to a neighbour may cost. */
  begin(leastStep: number): void {
    this.search++;
    this.queue.begin(leastStep);
  }

  get number(): number {
    return this.search;
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

/**
 * A queue of (key, cell) in buckets of equal width. Exact as long as no step costs less than a bucket is wide: what lies in the
 * first bucket can then no longer be bettered, in whatever order it is taken (Dial, Algorithm 360, 1969). O(1) each.
 */
class BucketQueue {
  private heads = new Int32Array(1024).fill(-1);
  private keys = new Float64Array(1024);
  private cells = new Int32Array(1024);
  private next = new Int32Array(1024);
  private used = 0;
  private first = 0;
  private last = -1;
  private width = 1;
  private waiting = 0;

  /** @param width - of a bucket: at most the least cost of a step. */
  begin(width: number): void {
    this.heads.fill(-1, 0, this.last + 1);
    this.used = 0;
    this.first = 0;
    this.last = -1;
    this.width = width;
    this.waiting = 0;
  }

  /** No key waiting is below this; Infinity when none waits. */
  floor(): number {
    if (this.waiting === 0) return Infinity;
    while (this.heads[this.first]! < 0) this.first++;
    return this.first * this.width;
  }

  push(key: number, cell: number): void {
    const bucket = Math.floor(key / this.width);
    if (bucket >= this.heads.length) this.widen(bucket);
    if (this.used === this.keys.length) this.deepen();
    const entry = this.used++;
    this.keys[entry] = key;
    this.cells[entry] = cell;
    this.next[entry] = this.heads[bucket]!;
    this.heads[bucket] = entry;
    if (bucket > this.last) this.last = bucket;
    if (bucket < this.first) this.first = bucket;
    this.waiting++;
  }

  /** An entry of the first bucket: ask its key and cell. Only while some wait. */
  pop(): number {
    while (this.heads[this.first]! < 0) this.first++;
    const entry = this.heads[this.first]!;
    this.heads[this.first] = this.next[entry]!;
    this.waiting--;
    return entry;
  }

  keyOf(entry: number): number {
    return this.keys[entry]!;
  }

  cellOf(entry: number): number {
    return this.cells[entry]!;
  }

  private widen(bucket: number): void {
    const heads = new Int32Array(2 * bucket).fill(-1);
    heads.set(this.heads);
    this.heads = heads;
  }

  private deepen(): void {
    const size = 2 * this.keys.length;
    const keys = new Float64Array(size);
    keys.set(this.keys);
    this.keys = keys;
    const cells = new Int32Array(size);
    cells.set(this.cells);
    this.cells = cells;
    const next = new Int32Array(size);
    next.set(this.next);
    this.next = next;
  }
}
