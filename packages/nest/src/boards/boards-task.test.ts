import { describe, expect, it } from 'vitest';
import type { BoardsInput } from '../search/task.ts';
import { boardsTask } from './boards-task.ts';
import { pushTogether } from './push-together.ts';

const bar = { outer: Float64Array.of(0, 0, 80, 0, 80, 20, 0, 20), holes: [] };
/** A shape of many corners about a circle. */
const blob = (radius: number) => {
  const points = Array.from({ length: 60 }, (_, k) => {
    const r = radius + (k % 2);
    return [r * Math.cos((k * Math.PI) / 30), r * Math.sin((k * Math.PI) / 30)];
  });
  return { outer: Float64Array.from(points.flat()), holes: [] };
};
const turns = [0, 90, 180, 270];
const input = (forms: BoardsInput['forms'], width: number): BoardsInput => ({
  forms,
  items: forms.map((_, form) => ({ poses: turns.map((turnDeg) => ({ form, turnDeg })) })),
  boards: [{ minX: 0, minY: 0, maxX: width, maxY: 30, obstacles: [], price: 1 }],
  spacing: 1,
  tolerance: 1e-4,
});

describe('a piece that is larger than its board', () => {
  it.each([
    ['few kinds', [bar]],
    ['many kinds', [bar, ...Array.from({ length: 60 }, (_, k) => blob(3 + 0.01 * k))]],
  ])('counts as work with %s, so that a search which keeps trying comes to the end of its budget', (name, forms) => {
    const task = boardsTask(input(forms, 50), { evaluations: 5000 }, { seed: 1 });
    expect(task.layout.model.hasManyPairs).toBe(name === 'many kinds');
    forms.forEach((_, item) => {
      task.layout.put(item, 0, task.layout.model.itemPoses[item]![0]!, 25, 15);
    });
    for (let tries = 1; tries <= 3; tries++) {
      const before = task.layout.evaluations;
      expect(task.separate(() => [0], { stalledPasses: 5, strikes: 1 }).isApart).toBe(false);
      expect(task.layout.evaluations).toBeGreaterThan(before);
    }
  });

  it('is not drawn in to a width that it could have only across', () => {
    const told: number[] = [];
    const evaluations = pushTogether(
      input([bar], 100),
      [{ item: 0, board: 0, pose: 0, turnDeg: 0, x: 15, y: 5 }],
      'maxX',
      1,
      { evaluations: 50_000 },
      { seed: 1, onBetter: (_, extent) => told.push(extent) },
    );
    expect(told.at(-1)).toBeLessThan(81.1);
    expect(evaluations).toBeLessThan(25_000);
  });
});
