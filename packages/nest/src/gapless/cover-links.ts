import type { Random } from '../search/random.ts';

/**
 * An exact cover problem as four-way linked lists that options are taken out of and put back into (Knuth, Dancing Links, 2000).
 * Columns are cells, each to be covered once, and kinds, each to be used no more often than there are pieces of it.
 */
export class CoverLinks {
  readonly #cells: number;
  /** How many of each kind are left. */
  readonly #left: Int32Array;
  readonly #size: Int32Array;
  readonly #right: number[];
  readonly #leftward: number[];
  readonly #up: number[];
  readonly #down: number[];
  readonly #column: number[];
  readonly #option: number[];
  #options = 0;
  /** Options tried so far. */
  steps = 0;
  /** The last search ended by its limit and says nothing. */
  isCutShort = false;

  /** @param counts - pieces of each kind. */
  constructor(cells: number, counts: readonly number[]) {
    this.#cells = cells;
    this.#left = Int32Array.from(counts);
    const columns = cells + counts.length;
    this.#size = new Int32Array(columns);
    // node k < columns heads column k; the cells' heads are in a ring with the root, the kinds' heads stand alone
    this.#up = Array.from({ length: columns }, (_, k) => k);
    this.#down = Array.from({ length: columns }, (_, k) => k);
    this.#column = Array.from({ length: columns }, (_, k) => k);
    this.#option = new Array<number>(columns).fill(-1);
    this.#right = Array.from({ length: columns }, (_, k) => (k < cells - 1 ? k + 1 : k));
    this.#leftward = Array.from({ length: columns }, (_, k) => (k > 0 && k < cells ? k - 1 : k));
    this.#root = columns;
    this.#up.push(columns);
    this.#down.push(columns);
    this.#column.push(-1);
    this.#option.push(-1);
    this.#right.push(0);
    this.#leftward.push(cells - 1);
    this.#right[cells - 1] = columns;
    this.#leftward[0] = columns;
  }

  readonly #root: number;

  /** Add a way to use a piece of a kind: it covers these cells. Options are numbered from 0. */
  add(kind: number, cells: readonly number[]): void {
    const first = this.#up.length;
    const columns = [this.#cells + kind, ...cells];
    columns.forEach((column, i) => {
      const node = first + i;
      const above = this.#up[column]!;
      this.#up.push(above);
      this.#down.push(column);
      this.#down[above] = node;
      this.#up[column] = node;
      this.#column.push(column);
      this.#option.push(this.#options);
      this.#leftward.push(i === 0 ? first + columns.length - 1 : node - 1);
      this.#right.push(i === columns.length - 1 ? first : node + 1);
      this.#size[column]!++;
    });
    this.#options++;
  }

  /**
   * Look for options that cover every cell once.
   * @param mostSteps - options tried before giving up (`isCutShort`).
   * @param random - breaks ties between cells, so that another start looks elsewhere.
   * @returns the options, or null.
   */
  solve(mostSteps: number, random: Random): number[] | null {
    this.steps = 0;
    this.isCutShort = false;
    const chosen: number[] = [];
    const search = (): boolean => {
      if (this.#right[this.#root] === this.#root) return true;
      const column = this.#fewest(random);
      if (this.#size[column] === 0) return false;
      this.#cover(column);
      let isFound = false;
      for (let node = this.#down[column]!; node !== column && !isFound; node = this.#down[node]!) {
        if (this.steps++ >= mostSteps) {
          this.isCutShort = true;
          break;
        }
        for (let other = this.#right[node]!; other !== node; other = this.#right[other]!) this.#use(other);
        chosen.push(this.#option[node]!);
        isFound = search();
        if (!isFound) chosen.pop();
        for (let other = this.#leftward[node]!; other !== node; other = this.#leftward[other]!) this.#unuse(other);
        if (this.isCutShort) break;
      }
      this.#uncover(column);
      return isFound;
    };
    return search() ? chosen : null;
  }

  #fewest(random: Random): number {
    let best = this.#root;
    let least = Infinity;
    let equal = 0;
    for (let column = this.#right[this.#root]!; column !== this.#root; column = this.#right[column]!) {
      const size = this.#size[column]!;
      if (size > least) continue;
      equal = size < least ? 1 : equal + 1;
      least = size;
      if (equal === 1 || random() * equal < 1) best = column;
      if (least === 0) break;
    }
    return best;
  }

  /** A column of a chosen option: cells are covered; a kind is covered when its last piece is used. */
  #use(node: number): void {
    const column = this.#column[node]!;
    const kind = column - this.#cells;
    if (kind < 0 || --this.#left[kind]! === 0) this.#cover(column);
  }

  #unuse(node: number): void {
    const column = this.#column[node]!;
    const kind = column - this.#cells;
    if (kind < 0 || this.#left[kind]!++ === 0) this.#uncover(column);
  }

  #cover(column: number): void {
    this.#right[this.#leftward[column]!] = this.#right[column]!;
    this.#leftward[this.#right[column]!] = this.#leftward[column]!;
    for (let row = this.#down[column]!; row !== column; row = this.#down[row]!) {
      for (let node = this.#right[row]!; node !== row; node = this.#right[node]!) {
        this.#down[this.#up[node]!] = this.#down[node]!;
        this.#up[this.#down[node]!] = this.#up[node]!;
        this.#size[this.#column[node]!]!--;
      }
    }
  }

  #uncover(column: number): void {
    for (let row = this.#up[column]!; row !== column; row = this.#up[row]!) {
      for (let node = this.#leftward[row]!; node !== row; node = this.#leftward[node]!) {
        this.#size[this.#column[node]!]!++;
        this.#down[this.#up[node]!] = node;
        this.#up[this.#down[node]!] = node;
      }
    }
    this.#right[this.#leftward[column]!] = column;
    this.#leftward[this.#right[column]!] = column;
  }
}
