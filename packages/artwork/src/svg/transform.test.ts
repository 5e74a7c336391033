import { apply } from '@underlap/geometry/matrix';
import { describe, expect, it } from 'vitest';
import { parseTransform } from './transform.ts';

const at = (text: string, x: number, y: number): number[] => {
  const matrix = parseTransform(text);
  if (matrix === null) throw new Error(`cannot read ${text}`);
  const point = apply(matrix, { x, y });
  return [point.x, point.y].map((value) => Math.round(value * 1e9) / 1e9 + 0);
};

describe('parseTransform', () => {
  it.each([
    ['', [3, 4]],
    ['none', [3, 4]],
    ['translate(10)', [13, 4]],
    ['translate(10-20)', [13, -16]],
    ['translate(1cm,1mm)', [3 + 960 / 25.4, 4 + 96 / 25.4]],
    ['scale(2)', [6, 8]],
    ['scale(2 -1)', [6, -4]],
    ['rotate(90)', [-4, 3]],
    ['rotate(.25turn)', [-4, 3]],
    ['rotate(-90 , 3, 0)', [7, 0]],
    ['skewX(45)', [7, 4]],
    ['skewY(45)', [3, 7]],
    ['matrix(1 2 3 4 5 6)', [3 + 12 + 5, 6 + 16 + 6]],
    [' translate(10,0)scale(2) , rotate(180)', [4, -8]],
    ['translateX(5px) translateY(6)', [8, 10]],
    ['scaleX(2) scaleY(3)', [6, 12]],
  ])('%s', (text, wanted) => {
    const found = at(text, 3, 4);
    expect(found[0]).toBeCloseTo(wanted[0]!, 8);
    expect(found[1]).toBeCloseTo(wanted[1]!, 8);
  });

  it('turns by quarter turns exactly', () => {
    expect(parseTransform('rotate(270)')).toEqual({ a: 0, b: -1, c: 1, d: 0, e: 0, f: 0 });
  });

  it.each([
    'translate()',
    'translate(1 2 3)',
    'rotate(1 2)',
    'matrix(1 2 3)',
    'matrix(NaN 0 0 1 0 0)',
    'scale(1e999)',
    'spin(3)',
    'translate(1',
    'translate 1',
    'scale(1)x',
    'translate(50%)',
    'scale(1e200) scale(1e200)',
  ])('refuses %s', (text) => {
    expect(parseTransform(text)).toBeNull();
  });
});
