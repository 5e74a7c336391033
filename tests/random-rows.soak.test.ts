import { expect, it } from 'vitest';
import { randomRows } from './support/random-rows.ts';
import { scoreRows } from './support/score-rows.ts';

const COUNT = Number(process.env.ROWS_DRAWINGS ?? 3000);

it('fresh combined drawings are read as meant or told', () => {
  const prefix = `fresh-${Date.now()}`;
  const counts = { right: 0, told: 0, silent: 0 };
  for (let i = 0; i < COUNT; i++) {
    const drawing = randomRows(`${prefix}-${i}`);
    const { outcome, faults } = scoreRows(drawing);
    counts[outcome]++;
    if (outcome === 'silent') console.log(`${prefix}-${i}`, drawing.traits.join(', '), faults.join('; '));
  }
  console.log(prefix, counts);
  expect(counts.silent).toBe(0);
});
