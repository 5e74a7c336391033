import type { Point } from '@underlap/geometry/point';

/** A stop of the way: it is entered at one point and left at another (the same for a closed contour). */
export interface WayStop {
  readonly enter: Point;
  readonly leave: Point;
  /** May it be travelled the other way round? A closed contour need not be. */
  readonly isOpen: boolean;
}

/** A stop as it is visited. */
export interface Visit {
  readonly stop: number;
  readonly reversed: boolean;
}

/** Nearest stops that each stop may be joined with. */
const NEIGHBOURS = 10;

/** Longest run of stops that is moved as a whole. */
const LONGEST_RUN = 3;

/** Disturbances tried for each stop, and in all: more shorten the way by less than a thousandth each time. */
const KICKS_PER_STOP = 12;
const MOST_KICKS = 4000;

/** A disturbance swaps two neighbouring runs of up to this many stops. */
const LONGEST_KICK = 30;

/** Least gain that counts, mm. */
const LEAST_GAIN = 1e-9;

/**
 * A short way from `from` through all stops, ending anywhere: a given order, then stretches reversed (2-opt) and short runs moved
 * (Or-opt) while that shortens the way, looking only at near neighbours and only where something changed; then many small
 * disturbances, each mended the same way and kept when the way got no longer. No chance enters.
 * @param order - every stop once, to begin with.
 * @remarks About O(n NEIGHBOURS) moves looked at, each change O(n). Sources: Croes (1958) and Or (1976) for the moves, Bentley, ORSA
 * J. Computing 4 (1992) for neighbour lists and don't-look bits, Johnson and McGeoch (1997) for the disturbances.
 */
export function shortWay(stops: readonly WayStop[], from: Point, order: readonly Visit[]): Visit[] {
  const way = new Way(stops, from, order);
  way.improve(order.map((visit) => visit.stop));
  const kicks = Math.min(MOST_KICKS, KICKS_PER_STOP * stops.length);
  if (stops.length >= 5) for (let kick = 1; kick <= kicks; kick++) way.disturb(kick);
  return way.visits();
}

/** Another stop and how far it is, mm. */
interface Near {
  readonly index: number;
  readonly d: number;
}

class Way {
  readonly #count: number;
  readonly #stops: readonly WayStop[];
  readonly #from: Point;
  readonly #near: readonly (readonly Near[])[];
  /** Stop at each position, its position back, and whether it is travelled backwards. */
  readonly #order: Int32Array;
  readonly #position: Int32Array;
  readonly #reversed: Uint8Array;
  readonly #isQueued: Uint8Array;

  constructor(stops: readonly WayStop[], from: Point, order: readonly Visit[]) {
    this.#count = stops.length;
    this.#stops = stops;
    this.#from = from;
    this.#near = nearestStops(stops);
    this.#order = Int32Array.from(order, (visit) => visit.stop);
    this.#position = new Int32Array(this.#count);
    this.#reversed = new Uint8Array(this.#count);
    this.#isQueued = new Uint8Array(this.#count);
    for (const [at, { stop, reversed }] of order.entries()) {
      this.#position[stop] = at;
      this.#reversed[stop] = reversed ? 1 : 0;
    }
  }

  visits(): Visit[] {
    return Array.from(this.#order, (stop) => ({ stop, reversed: this.#reversed[stop] === 1 }));
  }

  /** Better the way round the given stops until nothing more is gained there. */
  improve(stops: readonly number[]): number {
    const queue = [...stops];
    const isQueued = this.#isQueued;
    for (const stop of stops) isQueued[stop] = 1;
    let gained = 0;
    for (let head = 0; head < queue.length; head++) {
      const stop = queue[head]!;
      isQueued[stop] = 0;
      for (let gain = this.#improveAt(stop, queue, isQueued); gain > 0; ) {
        gained += gain;
        gain = this.#improveAt(stop, queue, isQueued);
      }
    }
    return gained;
  }

  /** Swap two runs near one place, mend, and take it all back when the way got longer. */
  disturb(kick: number): void {
    const n = this.#count;
    const part = (factor: number) => (kick * factor) % 1;
    const longest = Math.max(1, Math.min(LONGEST_KICK, Math.floor(n / 3)));
    const first = 1 + Math.floor(part(0.7548776662466927) * longest);
    const second = 1 + Math.floor(part(0.5698402909980532) * longest);
    const at = Math.floor(part(0.6180339887498949) * Math.max(1, n - first - second + 1));
    if (at + first + second > n) return;
    const order = this.#order.slice();
    const reversed = this.#reversed.slice();
    const cost = this.#swapCost(at, first, second);
    const touched = [at - 1, at, at + first - 1, at + first, at + first + second - 1, at + first + second]
      .filter((place) => place >= 0 && place < n)
      .map((place) => order[place]!);
    const runs = [...order.subarray(at + first, at + first + second), ...order.subarray(at, at + first)];
    for (const [index, stop] of runs.entries()) this.#put(at + index, stop);
    if (this.improve(touched) >= cost - LEAST_GAIN) return;
    this.#order.set(order);
    this.#reversed.set(reversed);
    for (let i = 0; i < n; i++) this.#position[order[i]!] = i;
  }

  #swapCost(at: number, first: number, second: number): number {
    const [a, b, c] = [at, at + first, at + first + second];
    const was = this.#gap(a - 1, a) + this.#gap(b - 1, b) + this.#gap(c - 1, c);
    return this.#gap(a - 1, b) + this.#gap(c - 1, a) + this.#gap(b - 1, c) - was;
  }

  #put(at: number, stop: number): void {
    this.#order[at] = stop;
    this.#position[stop] = at;
  }

  /** Where the head is after the stop at a position; before the first stop it is at the beginning of the way. */
  #out(at: number, flipped = false): Point {
    if (at < 0) return this.#from;
    const stop = this.#order[at]!;
    const { enter, leave } = this.#stops[stop]!;
    return (this.#reversed[stop] === 1) !== flipped ? enter : leave;
  }

  #in(at: number, flipped = false): Point {
    const stop = this.#order[at]!;
    const { enter, leave } = this.#stops[stop]!;
    return (this.#reversed[stop] === 1) !== flipped ? leave : enter;
  }

  /** Way between two positions that follow one another; nothing follows the last. */
  #gap(a: number, b: number, isAFlipped = false, isBFlipped = false): number {
    if (b >= this.#count) return 0;
    return distance(this.#out(a, isAFlipped), this.#in(b, isBFlipped));
  }

  #improveAt(stop: number, queue: number[], isQueued: Uint8Array): number {
    const wake = (position: number) => {
      if (position < 0 || position >= this.#count) return;
      const woken = this.#order[position]!;
      if (isQueued[woken] === 1) return;
      isQueued[woken] = 1;
      queue.push(woken);
    };
    const i = this.#position[stop]!;
    // The end of the way is free: turning the tail round costs only at its beginning.
    const tail = this.#reversalGain(i, this.#count - 1);
    if (tail > LEAST_GAIN) return this.#reverse(i, this.#count - 1, wake, tail);
    // An edge that is new and no shorter than both old ones here gains nothing; neighbours come nearest first.
    const longest = Math.max(this.#gap(i - 1, i), this.#gap(i, i + 1));
    for (const { index: other, d } of this.#near[stop]!) {
      if (d >= longest) break;
      const j = this.#position[other]!;
      const [low, high] = i < j ? [i, j] : [j, i];
      for (const [a, b] of [
        [low + 1, high],
        [low, high - 1],
      ] as const) {
        const gain = this.#reversalGain(a, b);
        if (gain > LEAST_GAIN) return this.#reverse(a, b, wake, gain);
      }
      for (let length = 1; length <= LONGEST_RUN; length++) {
        for (const first of length === 1 ? [i] : [i, i - length + 1]) {
          for (const target of [j, j + 1]) {
            const gain = this.#moveIfShorter(first, length, target, wake);
            if (gain > 0) return gain;
          }
        }
      }
    }
    return 0;
  }

  #reversalGain(a: number, b: number): number {
    if (a >= b && !(a === b && this.#stops[this.#order[a]!]?.isOpen === true)) return 0;
    const was = this.#gap(a - 1, a) + this.#gap(b, b + 1);
    return was - this.#gap(a - 1, b, false, true) - this.#gap(a, b + 1, true, false);
  }

  #reverse(a: number, b: number, wake: (position: number) => void, gain: number): number {
    this.#turnRound(a, b);
    for (const place of [a - 1, a, b, b + 1]) wake(place);
    return gain;
  }

  #turnRound(a: number, b: number): void {
    const run = this.#order.slice(a, b + 1).reverse();
    for (const [index, stop] of run.entries()) {
      this.#put(a + index, stop);
      if (this.#stops[stop]!.isOpen) this.#reversed[stop] = this.#reversed[stop] === 1 ? 0 : 1;
    }
  }

  /** Take a run out and put it before `target`, as it is or turned round, when that is shorter. */
  #moveIfShorter(first: number, length: number, target: number, wake: (position: number) => void): number {
    const last = first + length - 1;
    if (first < 0 || last >= this.#count || (target >= first && target <= last + 1)) return 0;
    const out = this.#gap(first - 1, first) + this.#gap(last, last + 1) - this.#gap(first - 1, last + 1);
    const freed = out + this.#gap(target - 1, target);
    const asItIs = freed - this.#gap(target - 1, first) - this.#gap(last, target);
    const turned = freed - this.#gap(target - 1, last, false, true) - this.#gap(first, target, true, false);
    const gain = Math.max(asItIs, turned);
    if (gain <= LEAST_GAIN) return 0;
    if (turned > asItIs) this.#turnRound(first, last);
    const run = this.#order.slice(first, last + 1);
    const to = target > last ? target - length : target;
    if (target > last) for (let at = first; at < to; at++) this.#put(at, this.#order[at + length]!);
    else for (let at = last; at >= to + length; at--) this.#put(at, this.#order[at - length]!);
    for (const [index, stop] of run.entries()) this.#put(to + index, stop);
    for (const place of [first - 1, first, last, last + 1, to - 1, to, to + length - 1, to + length]) wake(place);
    return gain;
  }
}

/** For every stop the nearest others, by the nearest pair of their ends; found ring by ring in a grid. */
function nearestStops(stops: readonly WayStop[]): Near[][] {
  const ends = stops.flatMap((stop, index) =>
    stop.isOpen
      ? [
          { ...stop.enter, index },
          { ...stop.leave, index },
        ]
      : [{ ...stop.enter, index }],
  );
  const xs = ends.map((end) => end.x);
  const ys = ends.map((end) => end.y);
  const minX = xs.reduce((least, x) => Math.min(least, x), Number.POSITIVE_INFINITY);
  const minY = ys.reduce((least, y) => Math.min(least, y), Number.POSITIVE_INFINITY);
  const width = xs.reduce((most, x) => Math.max(most, x), minX) - minX;
  const height = ys.reduce((most, y) => Math.max(most, y), minY) - minY;
  const cell = Math.max(
    1e-6,
    Math.sqrt((Math.max(width, 1e-3) * Math.max(height, 1e-3) * 2) / ends.length),
    Math.max(width, height) / 1000,
  );
  const columns = Math.floor(width / cell) + 1;
  const rows = Math.floor(height / cell) + 1;
  const cells = new Map<number, number[]>();
  const columnOf = (x: number) => Math.min(columns - 1, Math.floor((x - minX) / cell));
  const rowOf = (y: number) => Math.min(rows - 1, Math.floor((y - minY) / cell));
  for (const [at, end] of ends.entries()) {
    const key = rowOf(end.y) * columns + columnOf(end.x);
    const list = cells.get(key);
    if (list === undefined) cells.set(key, [at]);
    else list.push(at);
  }
  const found: Map<number, number>[] = stops.map(() => new Map());
  for (const end of ends) {
    const near: Near[] = [];
    const [column, row] = [columnOf(end.x), rowOf(end.y)];
    for (let ring = 0; ring <= Math.max(columns, rows); ring++) {
      for (const key of ringCells(column, row, ring, columns, rows)) {
        for (const at of cells.get(key) ?? []) {
          const other = ends[at]!;
          if (other.index !== end.index) near.push({ index: other.index, d: distance(end, other) });
        }
      }
      // Whatever lies in the next ring is at least `ring` cells away.
      if (near.filter((one) => one.d <= ring * cell).length >= NEIGHBOURS) break;
    }
    near.sort((a, b) => a.d - b.d || a.index - b.index);
    for (const { index, d } of near.slice(0, NEIGHBOURS)) {
      const known = found[end.index]!.get(index);
      if (known === undefined || d < known) found[end.index]!.set(index, d);
    }
  }
  return found.map((map) =>
    [...map].map(([index, d]) => ({ index, d })).sort((a, b) => a.d - b.d || a.index - b.index),
  );
}

function ringCells(column: number, row: number, ring: number, columns: number, rows: number): number[] {
  const keys: number[] = [];
  for (let y = row - ring; y <= row + ring; y++) {
    if (y < 0 || y >= rows) continue;
    const isEdge = Math.abs(y - row) === ring;
    for (let x = column - ring; x <= column + ring; x += isEdge || ring === 0 ? 1 : 2 * ring) {
      if (x >= 0 && x < columns) keys.push(y * columns + x);
    }
  }
  return keys;
}

function distance(a: Point, b: Point): number {
  const x = a.x - b.x;
  const y = a.y - b.y;
  return Math.sqrt(x * x + y * y);
}
