/** In place of a body: none. */
export const NO_BODY = -1;

/**
 * Gaps between bodies and to the walls as linear functions of small moves and turns. Row r says
 *
 *   gap[r] + first . (dx, dy, dz) of body a[r] + second . (dx, dy, dz) of body b[r] + far[r] * dLength >= 0
 *
 * where dz is the turn times the body's radius, so that all unknowns are lengths. Flat and growing; filled anew for each use.
 */
export class ContactRows {
  count = 0;
  a = new Int32Array(256);
  b = new Int32Array(256);
  gap = new Float64Array(256);
  /** Six numbers a row: derivatives by body a's x, y, z, then by body b's. */
  slope = new Float64Array(6 * 256);
  /** Derivative by the length of the strip. */
  far = new Float64Array(256);
  /** Distances from edges measured so far: what gathering has cost. */
  tests = 0;
  /** Scratch for crossings. */
  readonly shared = new Float64Array(64);

  clear(): void {
    this.count = 0;
  }

  push(a: number, b: number, gap: number, far: number): number {
    const row = this.count++;
    if (row >= this.a.length) this.#grow();
    this.a[row] = a;
    this.b[row] = b;
    this.gap[row] = gap;
    this.far[row] = far;
    return row;
  }

  #grow(): void {
    const size = 2 * this.a.length;
    const ints = (from: Int32Array) => {
      const to = new Int32Array(size);
      to.set(from);
      return to;
    };
    const floats = (from: Float64Array, width: number) => {
      const to = new Float64Array(width * size);
      to.set(from);
      return to;
    };
    this.a = ints(this.a);
    this.b = ints(this.b);
    this.gap = floats(this.gap, 1);
    this.far = floats(this.far, 1);
    this.slope = floats(this.slope, 6);
  }
}
