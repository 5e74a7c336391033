/*
 * Sums over a square matrix of pair depths, row-major, n bodies: what searches with and without turning minimise.
 */

/** Sum of one body's depths, each times the pair's weight and both bodies' factors. O(n). */
export function rowCost(
  depth: Float64Array,
  weight: Float64Array,
  factor: Float64Array,
  n: number,
  item: number,
): number {
  const row = item * n;
  let sum = 0;
  for (let j = 0; j < n; j++) {
    const d = depth[row + j]!;
    if (d > 0) sum += d * weight[row + j]! * factor[item]! * factor[j]!;
  }
  return sum;
}

/** Deepest overlap of one body; 0 = none. O(n). */
export function rowWorst(depth: Float64Array, n: number, item: number): number {
  const row = item * n;
  let most = 0;
  for (let j = 0; j < n; j++) if (depth[row + j]! > most) most = depth[row + j]!;
  return most;
}

/** Sum of depths beyond a tolerance over all pairs with one of the first `items` bodies. O(items * n). */
export function pairTotal(depth: Float64Array, n: number, items: number, tolerance: number): number {
  let sum = 0;
  for (let i = 0; i < items; i++) {
    const row = i * n;
    for (let j = i + 1; j < n; j++) if (depth[row + j]! > tolerance) sum += depth[row + j]!;
  }
  return sum;
}
