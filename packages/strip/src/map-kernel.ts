/**
 * The two inner loops of penalty maps on single-precision numbers: add a table times a weight into a map, and find a map's least
 * value. They run as WebAssembly with four numbers at a time (the module is put together below, instruction by instruction),
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

// WebAssembly instructions, as in the specification's appendix of opcodes.
const LOOP = [0x03, 0x40];
const END = 0x0b;
const BRANCH_IF = 0x0d;
const I32_LESS = 0x49;
const I32_ADD = 0x6a;
const I32_SUB = 0x6b;
const F32_MIN = 0x96;
/** Four numbers from the address on the stack; the address need not be aligned. */
const LOAD = [0xfd, 0x00, 0x02, 0x00];
const STORE = [0xfd, 0x0b, 0x02, 0x00];
const SPLAT = [0xfd, 0x13];
const LANE = [0xfd, 0x1f];
const ADD = [0xfd, 0xe4, 0x01];
const MULTIPLY = [0xfd, 0xe6, 0x01];
const LESSER = [0xfd, 0xea, 0x01];
const I32 = 0x7f;
const F32 = 0x7d;
const V128 = 0x7b;
const get = (local: number) => [0x20, local];
const set = (local: number) => [0x21, local];
const tee = (local: number) => [0x22, local];
const i32 = (value: number) => [0x41, value];

function moduleBytes(): Uint8Array<ArrayBuffer> {
  // Parameters: to, from, mapStride, tableStride, width, rows, weight; locals: weights (four), k (bytes).
  const [to, from, mapStride, tableStride, width, rows, weight, weights, k] = [0, 1, 2, 3, 4, 5, 6, 7, 8];
  const add = [
    ...[...get(weight), ...SPLAT, ...set(weights)],
    ...LOOP,
    ...[...i32(0), ...set(k)],
    ...LOOP,
    ...[...get(to), ...get(k), I32_ADD],
    ...[...get(to), ...get(k), I32_ADD, ...LOAD],
    ...[...get(from), ...get(k), I32_ADD, ...LOAD, ...get(weights), ...MULTIPLY],
    ...[...ADD, ...STORE],
    ...[...get(k), ...i32(16), I32_ADD, ...tee(k), ...get(width), I32_LESS, BRANCH_IF, 0],
    END,
    ...[...get(to), ...get(mapStride), I32_ADD, ...set(to)],
    ...[...get(from), ...get(tableStride), I32_ADD, ...set(from)],
    ...[...get(rows), ...i32(1), I32_SUB, ...tee(rows), BRANCH_IF, 0],
    END,
    END,
  ];
  // Parameters: from, end; local: least (four).
  const [at, end, few] = [0, 1, 2];
  const least = [
    ...[...get(at), ...LOAD, ...set(few)],
    ...LOOP,
    ...[...get(at), ...LOAD, ...get(few), ...LESSER, ...set(few)],
    ...[...get(at), ...i32(16), I32_ADD, ...tee(at), ...get(end), I32_LESS, BRANCH_IF, 0],
    END,
    ...[...get(few), ...LANE, 0, ...get(few), ...LANE, 1, F32_MIN],
    ...[...get(few), ...LANE, 2, ...get(few), ...LANE, 3, F32_MIN, F32_MIN],
    END,
  ];
  const section = (id: number, body: readonly number[]) => [id, ...leb(body.length), ...body];
  const code = (locals: readonly number[], body: readonly number[]) => {
    const all = [...locals, ...body];
    return [...leb(all.length), ...all];
  };
  const name = (text: string) => [text.length, ...Array.from(text, (letter) => letter.charCodeAt(0))];
  return Uint8Array.from([
    ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
    ...section(1, [2, ...[0x60, 7, I32, I32, I32, I32, I32, I32, F32, 0], ...[0x60, 2, I32, I32, 1, F32]]),
    ...section(3, [2, 0, 1]),
    ...section(5, [1, 1, ...leb(1), ...leb(MOST_NUMBERS / PAGE_NUMBERS)]),
    ...section(7, [3, ...name('memory'), 2, 0, ...name('add'), 0, 0, ...name('least'), 0, 1]),
    ...section(10, [2, ...code([2, 1, V128, 1, I32], add), ...code([1, 1, V128], least)]),
  ]);
}

/** Unsigned number in groups of seven bits, as WebAssembly has them. */
function leb(value: number): number[] {
  return value < 128 ? [value] : [(value & 127) | 128, ...leb(value >>> 7)];
}
