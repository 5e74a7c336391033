/** Products of doubles are off by at most this share of themselves, each; with a little to spare. */
const ROUNDING = 2 ** -51;

/**
 * Is a b = c d, exactly, for whole numbers below 2^53?
 * @remarks A double decides but for near misses, where whole numbers of any length do.
 */
export function areProductsEqual(a: number, b: number, c: number, d: number): boolean {
  const left = a * b;
  const right = c * d;
  if (Math.abs(left - right) > ROUNDING * (Math.abs(left) + Math.abs(right))) return false;
  if (Math.abs(left) <= Number.MAX_SAFE_INTEGER && Math.abs(right) <= Number.MAX_SAFE_INTEGER) return left === right;
  return BigInt(a) * BigInt(b) === BigInt(c) * BigInt(d);
}
