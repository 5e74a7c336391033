import { fillBoards } from '@underlap/nest/blf/bottom-left';
import { orderedUnits } from '@underlap/nest/blf/orders';
import { checkLayout } from '@underlap/nest/check/check-layout';
import { layoutOf } from '@underlap/nest/draft-layout';
import { onCheaperStock } from '@underlap/nest/improve/cheaper-stock';
import { prepareProblem } from '@underlap/nest/shape/prepare';
import { describe, expect, it } from 'vitest';
import { boardStock, boxRegion, nestPart, nestProblem } from './support/nest-problems.ts';

const large = boardStock(500, 300, { id: 'large', price: 5 });
const small = boardStock(220, 120, { id: 'small', price: 2 });
const offcut = boardStock(210, 110, { id: 'offcut', price: 0, count: 1 });

/** Kinds of board used for so many plates, all laid out on large boards first. */
function namesAfter(quantity: number, stock: (typeof large)[]): string[] {
  const problem = nestProblem([nestPart('plate', boxRegion(90, 90), { quantity })], stock);
  const prepared = prepareProblem(problem);
  const draft = fillBoards(prepared, { units: orderedUnits(prepared, 'area', []), preference: [0] });
  const after = onCheaperStock(prepared, draft, []);
  expect(checkLayout(problem, layoutOf(prepared, after, [], false)).violations).toEqual([]);
  return after.boards.map((board) => board.stock.stock.id).sort();
}

describe('stock of several kinds', () => {
  it('lays what is left over on the offcut at hand', () => {
    expect(namesAfter(17, [large, small, offcut])).toEqual(['large', 'offcut']);
  });

  it('takes the next cheaper kind where the offcut is too small or used up', () => {
    expect(namesAfter(2, [large, small, { ...offcut, count: 0 }])).toEqual(['small']);
    expect(namesAfter(17, [large, small])).toEqual(['large', 'small']);
  });

  it('leaves boards alone whose pieces fit nothing cheaper', () => {
    expect(namesAfter(18, [large, small, offcut])).toEqual(['large', 'large']);
    expect(namesAfter(17, [large])).toEqual(['large', 'large']);
  });
});
