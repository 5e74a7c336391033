/**
 * A symmetric matrix with its non-zeros near the diagonal (lower triangle, row by row from each row's first column), and its
 * factorisation in place (Cholesky by rows within the envelope; George and Liu 1981).
 */
export class EnvelopeMatrix {
  readonly size: number;
  /** First column of each row that may differ from 0. */
  readonly first: Int32Array;
  /** Where a row's column 0 would stand in `values`: entry (row, column) is values[start[row] + column]. */
  readonly start: Int32Array;
  readonly values: Float64Array;

  constructor(first: Int32Array) {
    this.size = first.length;
    this.first = first;
    this.start = new Int32Array(first.length);
    let used = 0;
    for (let row = 0; row < first.length; row++) {
      this.start[row] = used - first[row]!;
      used += row - first[row]! + 1;
    }
    this.values = new Float64Array(used);
  }

  /**
   * Replace the matrix by its factor L with L L^T = matrix. Pivots that rounding has made too small are raised to `least`.
   * @remarks O(size * width^2), width the mean length of a row in the envelope.
   */
  factorise(least: number): void {
    const { first, start, values, size } = this;
    for (let i = 0; i < size; i++) {
      const si = start[i]!;
      const fi = first[i]!;
      for (let j = fi; j < i; j++) {
        const sj = start[j]!;
        let sum = values[si + j]!;
        for (let k = Math.max(fi, first[j]!); k < j; k++) sum -= values[si + k]! * values[sj + k]!;
        values[si + j] = sum / values[sj + j]!;
      }
      let pivot = values[si + i]!;
      for (let k = fi; k < i; k++) pivot -= values[si + k]! * values[si + k]!;
      values[si + i] = Math.sqrt(pivot > least ? pivot : least);
    }
  }

  /** Solve with the factor: right becomes the solution. */
  solve(right: Float64Array): void {
    const { first, start, values, size } = this;
    for (let i = 0; i < size; i++) {
      const si = start[i]!;
      let sum = right[i]!;
      for (let k = first[i]!; k < i; k++) sum -= values[si + k]! * right[k]!;
      right[i] = sum / values[si + i]!;
    }
    for (let i = size - 1; i >= 0; i--) {
      const si = start[i]!;
      const value = right[i]! / values[si + i]!;
      right[i] = value;
      for (let k = first[i]!; k < i; k++) right[k]! -= values[si + k]! * value;
    }
  }
}
