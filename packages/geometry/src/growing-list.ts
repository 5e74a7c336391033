/** Numbers of a chunk: the list grows without copying what it holds, and a short one stays small. */
const CHUNK_BITS = 10;
const CHUNK = 1 << CHUNK_BITS;
const MASK = CHUNK - 1;

/** A growing list of 32-bit integers, 4 bytes each. */
export class IntList {
  private readonly chunks: Int32Array[] = [];
  private count = 0;

  get length(): number {
    return this.count;
  }

  push(value: number): void {
    if ((this.count & MASK) === 0) this.chunks.push(new Int32Array(CHUNK));
    this.chunks[this.count >> CHUNK_BITS]![this.count++ & MASK] = value;
  }

  /** @param index - in 0..length - 1, which is not checked. */
  get(index: number): number {
    return this.chunks[index >> CHUNK_BITS]![index & MASK]!;
  }
}

/** A growing list of numbers, 8 bytes each. */
export class FloatList {
  private readonly chunks: Float64Array[] = [];
  private count = 0;

  get length(): number {
    return this.count;
  }

  push(value: number): void {
    if ((this.count & MASK) === 0) this.chunks.push(new Float64Array(CHUNK));
    this.chunks[this.count >> CHUNK_BITS]![this.count++ & MASK] = value;
  }

  /** @param index - in 0..length - 1, which is not checked. */
  get(index: number): number {
    return this.chunks[index >> CHUNK_BITS]![index & MASK]!;
  }
}
