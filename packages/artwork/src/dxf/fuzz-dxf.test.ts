import seedrandom from 'seedrandom';
import { expect, it } from 'vitest';
import { everythingText, spoilt } from '../../testing/dxf-mutations.ts';
import { outcomeOf } from '../../testing/fuzz-dxf.ts';

it('reads or refuses 1,000 spoilt drawings, with finite numbers and no other error', () => {
  const text = everythingText();
  expect(outcomeOf(text)).toBe('read');
  const outcomes = { read: 0, refused: 0 };
  for (let seed = 1; seed <= 1000; seed++) {
    const bad = spoilt(text, seedrandom(`spoilt-${seed}`));
    try {
      outcomes[outcomeOf(bad)]++;
    } catch (error) {
      throw new Error(`seed ${seed}: ${error instanceof Error ? error.stack : error}`);
    }
  }
  // Both must occur, else the faults are too mild or too rough to test anything.
  expect(outcomes.read).toBeGreaterThan(150);
  expect(outcomes.refused).toBeGreaterThan(15);
});
