import { expect, it } from 'vitest';
import { BoxIndex } from './box-index.ts';

it('finds boxes that are so small for where they lie that their cells cannot be counted', () => {
  const index = new BoxIndex<string>(1e-15);
  index.add({ minX: 50, minY: 50, maxX: 50, maxY: 50 }, 'speck');
  index.add({ minX: 0, minY: 0, maxX: 90, maxY: 90 }, 'page');
  expect(index.at(50, 50)).toEqual(['speck', 'page']);
  expect(index.at(51, 50)).toEqual(['page']);
});
