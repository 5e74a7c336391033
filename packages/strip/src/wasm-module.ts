/**
 * A small encoder of WebAssembly modules: functions of a few instructions over one memory, named here and written as the bytes that the
 * WebAssembly core specification gives them (binary format; appendix 'Index of Instructions').
 */

/** Number of a parameter or local of a function, parameters first. */
export type Local = 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

/** 32-bit integer, single-precision number, four of the latter. */
type ValueType = 'i32' | 'f32' | 'v128';

type Instruction = readonly number[];

export interface WasmFunction {
  /** Under which it is exported. */
  readonly name: string;
  readonly parameters: readonly ValueType[];
  readonly locals: readonly ValueType[];
  readonly result: ValueType | null;
  readonly body: readonly Instruction[];
}

const TYPE = { i32: 0x7f, f32: 0x7d, v128: 0x7b } as const;
const FUNCTION_TYPE = 0x60;
const NO_RESULT = 0x40;
const END = 0x0b;
/** First byte of all instructions on four numbers at once. */
const VECTOR = 0xfd;
/** No alignment is promised, and nothing is added to the address. */
const UNALIGNED = [0x02, 0x00];

/** Instructions: each takes what it needs from the stack and leaves its result there. */
export const as = {
  get: (local: Local): Instruction => [0x20, local],
  set: (local: Local): Instruction => [0x21, local],
  /** Set, and leave the value on the stack. */
  tee: (local: Local): Instruction => [0x22, local],
  /** An integer from 0 to 63. */
  number: (value: number): Instruction => [0x41, value],
  isLess: [0x49],
  add: [0x6a],
  subtract: [0x6b],
  /** The lesser of two single numbers. */
  lesser: [0x96],
  loadFour: [VECTOR, 0x00, ...UNALIGNED],
  storeFour: [VECTOR, 0x0b, ...UNALIGNED],
  fourTimes: [VECTOR, 0x13],
  lane: (index: number): Instruction => [VECTOR, 0x1f, index],
  addFours: [VECTOR, 0xe4, 0x01],
  multiplyFours: [VECTOR, 0xe6, 0x01],
  lesserFours: [VECTOR, 0xea, 0x01],
  /** Instructions again and again, as long as they leave something other than 0 on the stack. */
  loop: (...groups: readonly (readonly Instruction[])[]): Instruction[] => [
    [0x03, NO_RESULT],
    ...groups.flat(),
    [0x0d, 0x00],
    [END],
  ],
} as const;

/** Numbers of the sections, in the order that a module has them. */
const SECTION = { types: 1, functions: 3, memory: 5, exports: 7, code: 10 } as const;
/** What an export is. */
const KIND = { function: 0, memory: 2 } as const;
/** A zero, 'asm', and version 1. */
const PREAMBLE = [0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00];

/**
 * The bytes of a module with these functions and one memory, exported as `memory`.
 * @param pages - of the memory, 64 kB each: at first, and at most.
 */
export function wasmModule(
  pages: { readonly first: number; readonly most: number },
  functions: readonly WasmFunction[],
): Uint8Array<ArrayBuffer> {
  const types = functions.map(({ parameters, result }) => [
    FUNCTION_TYPE,
    ...list(parameters.map((type) => [TYPE[type]])),
    ...list(result === null ? [] : [[TYPE[result]]]),
  ]);
  const exports = functions.map(({ name }, index) => [...text(name), KIND.function, index]);
  return Uint8Array.from([
    ...PREAMBLE,
    ...section(SECTION.types, list(types)),
    ...section(SECTION.functions, list(functions.map((_, index) => [index]))),
    ...section(SECTION.memory, list([[1, ...unsigned(pages.first), ...unsigned(pages.most)]])),
    ...section(SECTION.exports, list([[...text('memory'), KIND.memory, 0], ...exports])),
    ...section(SECTION.code, list(functions.map(code))),
  ]);
}

function code({ locals, body }: WasmFunction): number[] {
  const declared = list(locals.map((type) => [1, TYPE[type]]));
  return sized([...declared, ...body.flat(), END]);
}

function section(id: number, content: readonly number[]): number[] {
  return [id, ...sized(content)];
}

function sized(content: readonly number[]): number[] {
  return [...unsigned(content.length), ...content];
}

function list(entries: readonly (readonly number[])[]): number[] {
  return [...unsigned(entries.length), ...entries.flat()];
}

function text(name: string): number[] {
  return [name.length, ...Array.from(name, (letter) => letter.charCodeAt(0))];
}

/** Unsigned number in groups of seven bits, the least first. */
function unsigned(value: number): number[] {
  return value < 128 ? [value] : [(value & 127) | 128, ...unsigned(value >>> 7)];
}
