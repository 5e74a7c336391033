type FlatNumbers = Float64Array | Float32Array | Int32Array;

/** A growing typed array that hands out consecutive stretches: one backing array, so that hot loops read flat memory. */
export interface Pool<Numbers extends FlatNumbers> {
  data: Numbers;
  used: number;
  readonly make: (length: number) => Numbers;
}

export function floatPool(capacity: number): Pool<Float64Array> {
  return poolOf((length) => new Float64Array(length), capacity);
}

export function singlePool(capacity: number): Pool<Float32Array> {
  return poolOf((length) => new Float32Array(length), capacity);
}

export function intPool(capacity: number): Pool<Int32Array> {
  return poolOf((length) => new Int32Array(length), capacity);
}

function poolOf<Numbers extends FlatNumbers>(make: (length: number) => Numbers, capacity: number): Pool<Numbers> {
  return { data: make(capacity), used: 0, make };
}

/** Make room for `count` more numbers and return where they start. Amortised O(1) per number. */
export function reserve<Numbers extends FlatNumbers>(pool: Pool<Numbers>, count: number): number {
  const start = pool.used;
  pool.used += count;
  if (pool.used > pool.data.length) {
    const larger = pool.make(Math.max(pool.used, pool.data.length * 2));
    larger.set(pool.data.subarray(0, start));
    pool.data = larger;
  }
  return start;
}
