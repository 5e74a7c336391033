/** Growing typed arrays that hand out consecutive stretches; one backing array each, so that hot loops read flat memory. */
export interface FloatPool {
  data: Float64Array;
  used: number;
}

export interface IntPool {
  data: Int32Array;
  used: number;
}

export function floatPool(capacity: number): FloatPool {
  return { data: new Float64Array(capacity), used: 0 };
}

export function intPool(capacity: number): IntPool {
  return { data: new Int32Array(capacity), used: 0 };
}

/** Make room for `count` more numbers and return where they start. Amortised O(1) per number. */
export function reserveFloats(pool: FloatPool, count: number): number {
  const start = pool.used;
  pool.used += count;
  if (pool.used > pool.data.length) {
    const larger = new Float64Array(Math.max(pool.used, pool.data.length * 2));
    larger.set(pool.data.subarray(0, start));
    pool.data = larger;
  }
  return start;
}

/** Make room for `count` more integers and return where they start. */
export function reserveInts(pool: IntPool, count: number): number {
  const start = pool.used;
  pool.used += count;
  if (pool.used > pool.data.length) {
    const larger = new Int32Array(Math.max(pool.used, pool.data.length * 2));
    larger.set(pool.data.subarray(0, start));
    pool.data = larger;
  }
  return start;
}

export interface SinglePool {
  data: Float32Array;
  used: number;
}

export function singlePool(capacity: number): SinglePool {
  return { data: new Float32Array(capacity), used: 0 };
}

/** Make room for `count` more single-precision numbers and return where they start. */
export function reserveSingles(pool: SinglePool, count: number): number {
  const start = pool.used;
  pool.used += count;
  if (pool.used > pool.data.length) {
    const larger = new Float32Array(Math.max(pool.used, pool.data.length * 2));
    larger.set(pool.data.subarray(0, start));
    pool.data = larger;
  }
  return start;
}
