import { regionArea } from '@underlap/geometry/region';
import type { Draft } from '@underlap/nest/blf/bottom-left';
import { checkLayout } from '@underlap/nest/check/check-layout';
import { layoutOf } from '@underlap/nest/draft-layout';
import { tidyLastBoard } from '@underlap/nest/improve/last-board';
import { largestOffcut } from '@underlap/nest/offcut';
import { prepareProblem } from '@underlap/nest/shape/prepare';
import { describe, expect, it } from 'vitest';
import { boardStock, boxRegion, nestPart, nestProblem } from './support/nest-problems.ts';

const corner = { outer: Float64Array.of(0, 0, 300, 0, 300, 120, 220, 120, 220, 200, 0, 200), holes: [] };

describe('pushing the last board together', () => {
  it.each([
    ['a plain board', boardStock(300, 200)],
    ['an offcut with a corner missing', boardStock(300, 200, { outline: corner })],
    ['a board with a flaw', boardStock(300, 200, { forbidden: [boxRegion(15, 15, 60, 90)] })],
  ])('leaves a larger offcut on %s', (_, stock) => {
    const problem = nestProblem([nestPart('plate', boxRegion(40, 50), { quantity: 4 })], [stock]);
    const prepared = prepareProblem(problem);
    const [turned] = prepared.pieces[0]!.offGrain;
    const spread = [
      [10, 10],
      [100, 12],
      [185, 8],
      [110, 130],
    ];
    const placed = spread.map(([x, y], copy) => ({ copy, turned: turned!, x: x!, y: y! }));
    const draft: Draft = { boards: [{ stock: prepared.stocks[0]!, placed }], left: [] };
    const offcutOf = ({ boards }: Draft) => regionArea(largestOffcut(boards[0]!.stock, boards[0]!.placed, 2)!);
    let best = draft;
    const take = (better: Draft): boolean => {
      expect(checkLayout(problem, layoutOf(prepared, better, [], false)).violations).toEqual([]);
      if (offcutOf(better) <= offcutOf(best)) return false;
      best = better;
      return true;
    };
    tidyLastBoard(prepared, draft, [], 0.3, '1', take, {});
    expect(offcutOf(best)).toBeGreaterThan(1.5 * offcutOf(draft));
  });

  it('is not done where no larger offcut is asked for', () => {
    const asked = nestProblem([nestPart('plate', boxRegion(40, 50), { quantity: 2 })], [boardStock(300, 200)]);
    const spentWith = (then: 'largest-offcut' | 'shortest-cutting'): number => {
      const prepared = prepareProblem({ ...asked, rules: { ...asked.rules, then } });
      const turned = prepared.pieces[0]!.offGrain[0]!;
      const placed = [10, 180].map((x, copy) => ({ copy, turned, x, y: 90 }));
      const draft: Draft = { boards: [{ stock: prepared.stocks[0]!, placed }], left: [] };
      return tidyLastBoard(prepared, draft, [], 0.3, '1', () => false, {});
    };
    expect(spentWith('shortest-cutting')).toBe(0);
    expect(spentWith('largest-offcut')).toBeGreaterThan(0);
  });
});
