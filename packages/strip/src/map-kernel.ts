import { as, type Local, type WasmFunction, wasmModule } from './wasm-module.ts';

/**
 * The two inner loops of penalty maps on single-precision numbers: add a table times a weight into a map, and find a map's least
 * value. They run as WebAssembly with four numbers at a time (`moduleBytes` below, encoded by `wasm-module.ts`),
 * or as plain loops where that is not to be had; both give the same bits, since every step rounds to single precision.
 */
export interface MapKernel {
  /** All numbers; replaced when `reserve` makes room, so do not hold on to it. */
  readonly numbers: Float32Array;
  /** Room for `count` more numbers; returns the index of the first. */
  reserve(count: number): number;
  /**
   * numbers[to + r * mapStride + k] += weight * numbers[from + r * tableStride + k] for k below 4 * fours, r below rows.
   * All arguments are indices or counts of numbers; rows and fours are at least 1.
   */
  add(
    to: number,
    from: number,
    mapStride: number,
    tableStride: number,
    fours: number,
    rows: number,
    weight: number,
  ): void;
  /** Least of numbers[from .. from + 4 * fours); fours is at least 1. */
  least(from: number, fours: number): number;
}

const PAGE_NUMBERS = 16384;

/** Numbers kept at most: what a kernel's owner plans with; 256 MB. */
const MOST_NUMBERS = 1 << 26;

export function mapKernel(allowsWasm = true): MapKernel {
  const bytes = moduleBytes();
  if (allowsWasm && typeof WebAssembly === 'object' && WebAssembly.validate(bytes)) {
    try {
      return wasmKernel(bytes);
    } catch {
      // A page may forbid compiling: the plain loops do the same.
    }
  }
  return plainKernel();
}

interface Exports {
  readonly memory: WebAssembly.Memory;
  add(
    to: number,
    from: number,
    mapBytes: number,
    tableBytes: number,
    fourBytes: number,
    rows: number,
    weight: number,
  ): void;
  least(from: number, end: number): number;
}

function wasmKernel(bytes: Uint8Array<ArrayBuffer>): MapKernel {
  const { memory, add, least } = new WebAssembly.Instance(new WebAssembly.Module(bytes)).exports as unknown as Exports;
  let numbers = new Float32Array(memory.buffer);
  let used = 0;
  return {
    get numbers() {
      return numbers;
    },
    reserve(count) {
      const start = used;
      used += count;
      if (used > numbers.length) {
        memory.grow(Math.ceil((Math.max(used, 1.5 * numbers.length) - numbers.length) / PAGE_NUMBERS));
        numbers = new Float32Array(memory.buffer);
      }
      return start;
    },
    add: (to, from, mapStride, tableStride, fours, rows, weight) =>
      add(to << 2, from << 2, mapStride << 2, tableStride << 2, fours << 4, rows, weight),
    least: (from, fours) => least(from << 2, (from << 2) + (fours << 4)),
  };
}

function plainKernel(): MapKernel {
  let numbers = new Float32Array(PAGE_NUMBERS);
  let used = 0;
  return {
    get numbers() {
      return numbers;
    },
    reserve(count) {
      const start = used;
      used += count;
      if (used > numbers.length) {
        const larger = new Float32Array(Math.ceil(Math.max(used, 1.5 * numbers.length)));
        larger.set(numbers);
        numbers = larger;
      }
      return start;
    },
    add(to, from, mapStride, tableStride, fours, rows, weight) {
      const all = numbers;
      const single = Math.fround(weight);
      const width = 4 * fours;
      for (let r = 0; r < rows; r++) {
        const shift = to + r * mapStride - (from + r * tableStride);
        const first = from + r * tableStride;
        for (let t = first; t < first + width; t++) all[t + shift]! += Math.fround(single * all[t]!);
      }
    },
    least(from, fours) {
      let least = numbers[from]!;
      for (let k = from + 1; k < from + 4 * fours; k++) if (numbers[k]! < least) least = numbers[k]!;
      return least;
    },
  };
}

/** Bytes that an instruction on four numbers goes on by. */
const FOUR = 16;

/** The module of the two loops; what each does is written above it as if it were code. */
function moduleBytes(): Uint8Array<ArrayBuffer> {
  return wasmModule({ first: 1, most: MOST_NUMBERS / PAGE_NUMBERS }, [addLoop(), leastLoop()]);
}

/*
 *   weights = four times weight
 *   do {
 *     k = 0
 *     do {
 *       four at (to + k) = four at (to + k) + four at (from + k) * weights
 *       k = k + FOUR
 *     } while (k < width)
 *     to = to + mapStride; from = from + tableStride
 *     rows = rows - 1
 *   } while (rows is not 0)
 */
function addLoop(): WasmFunction {
  const [to, from, mapStride, tableStride, width, rows, weight, weights, k] = [0, 1, 2, 3, 4, 5, 6, 7, 8] as const;
  const address = (start: Local) => [as.get(start), as.get(k), as.add];
  return {
    name: 'add',
    parameters: ['i32', 'i32', 'i32', 'i32', 'i32', 'i32', 'f32'],
    locals: ['v128', 'i32'],
    result: null,
    body: [
      [as.get(weight), as.fourTimes, as.set(weights)],
      as.loop(
        [as.number(0), as.set(k)],
        as.loop(
          [...address(to), ...address(to), as.loadFour],
          [...address(from), as.loadFour, as.get(weights), as.multiplyFours],
          [as.addFours, as.storeFour],
          [as.get(k), as.number(FOUR), as.add, as.tee(k), as.get(width), as.isLess],
        ),
        [as.get(to), as.get(mapStride), as.add, as.set(to)],
        [as.get(from), as.get(tableStride), as.add, as.set(from)],
        [as.get(rows), as.number(1), as.subtract, as.tee(rows)],
      ),
    ].flat(),
  };
}

/*
 *   least = four at (at)
 *   do {
 *     least = the lesser of four at (at) and least, number by number
 *     at = at + FOUR
 *   } while (at < end)
 *   return the least of the four of least
 */
function leastLoop(): WasmFunction {
  const [at, end, least] = [0, 1, 2] as const;
  const lane = (k: number) => [as.get(least), as.lane(k)];
  return {
    name: 'least',
    parameters: ['i32', 'i32'],
    locals: ['v128'],
    result: 'f32',
    body: [
      [as.get(at), as.loadFour, as.set(least)],
      as.loop(
        [as.get(at), as.loadFour, as.get(least), as.lesserFours, as.set(least)],
        [as.get(at), as.number(FOUR), as.add, as.tee(at), as.get(end), as.isLess],
      ),
      [...lane(0), ...lane(1), as.lesser],
      [...lane(2), ...lane(3), as.lesser, as.lesser],
    ].flat(),
  };
}
