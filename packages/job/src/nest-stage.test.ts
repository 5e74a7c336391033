import { describe, expect, it } from 'vitest';
import { boardId, nestProblemOf, priceOf } from './nest-stage.ts';
import { jobFrom } from './parse-job.ts';

describe('stock', () => {
  const job = jobFrom(
    {
      bed: '520x320',
      boards: ['508x305', { width: 508, height: 305, price: 4 }, { id: 'birch', width: 400, height: 300, price: 7 }],
      offcuts: [{ id: 'rest', outline: 'M100 50h200v100h-200zM150 80h20v20h-20z' }],
    },
    'test',
  );

  it('gives every board a name of its own and finds its price by it', () => {
    expect(job.boards.map((_, index) => boardId(job, index))).toEqual(['508x305', '508x305-2', 'birch']);
    expect(priceOf(job, '508x305-2')).toBe(4);
    expect(priceOf(job, 'birch')).toBe(7);
    expect(priceOf(job, 'rest')).toBe(0);
  });

  it('hands on what counts first and next; offcuts cost next to nothing when boards to buy are counted', () => {
    const rulesOf = (given: typeof job) => {
      const { aim, then: next } = nestProblemOf([], given).rules;
      return [aim, next];
    };
    expect(rulesOf(job)).toEqual(['fewest-boards', 'largest-offcut']);
    const thrifty = { ...job, aim: 'fewest-bought', tieBreak: 'shortest-cutting' } as const;
    expect(rulesOf(thrifty)).toEqual(['cheapest', 'shortest-cutting']);
    const prices = nestProblemOf([], thrifty).stock.map(({ id, price }) => [id, Math.round(price * 100) / 100]);
    expect(prices).toEqual([
      ['508x305', 1],
      ['508x305-2', 1],
      ['birch', 1],
      ['rest', 0],
    ]);
  });

  it('moves an offcut to the origin and keeps its holes', () => {
    const rest = nestProblemOf([], job).stock.find((stock) => stock.id === 'rest')!;
    expect(Math.min(...rest.outline.outer)).toBe(0);
    expect(Math.max(...rest.outline.outer)).toBe(200);
    expect(rest.outline.holes).toHaveLength(1);
    expect(rest.count).toBe(1);
  });

  it('refuses an outline that is none, naming the offcut', () => {
    const broken = { ...job, offcuts: [{ ...job.offcuts[0]!, outline: 'M0 0L10 0' }] };
    expect(() => nestProblemOf([], broken)).toThrow(/outline of offcut rest/);
  });
});
