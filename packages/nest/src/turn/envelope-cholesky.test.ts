import { describe, expect, it } from 'vitest';
import { seededRandom } from '../search/random.ts';
import { EnvelopeMatrix } from './envelope-cholesky.ts';

describe('EnvelopeMatrix', () => {
  it('solves what it was multiplied from, whatever its envelope', () => {
    const random = seededRandom('envelope');
    for (let round = 0; round < 20; round++) {
      const size = 3 + Math.floor(random() * 20);
      const first = Int32Array.from({ length: size }, (_, row) => Math.floor(random() * (row + 1)));
      const matrix = new EnvelopeMatrix(first);
      const full = Array.from({ length: size }, () => new Float64Array(size));
      for (let row = 0; row < size; row++) {
        for (let column = first[row]!; column <= row; column++) {
          // diagonally dominant, hence positive definite
          const value = column === row ? size + random() : 2 * random() - 1;
          matrix.values[matrix.start[row]! + column] = value;
          full[row]![column] = value;
          full[column]![row] = value;
        }
      }
      const wanted = Float64Array.from({ length: size }, () => random());
      const right = Float64Array.from(full, (row) => row.reduce((sum, value, k) => sum + value * wanted[k]!, 0));
      matrix.factorise(1e-14);
      matrix.solve(right);
      for (let k = 0; k < size; k++) expect(right[k]).toBeCloseTo(wanted[k]!, 10);
    }
  });
});
