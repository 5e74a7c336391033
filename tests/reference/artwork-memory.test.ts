import { expect, it } from 'vitest';
import { USUAL_DRAWINGS } from '../support/large-drawings.ts';
import { PROGRAM_HEAP_MB, readingCost } from '../support/reading-cost.ts';

/*
 * Memory of reading ten megabytes of SVG, 50,000 segments, in a process whose heap is bounded: what is alive at any moment has
 * to fit. Garbage that the engine has not yet collected comes on top in a process without bounds (tests/bench/artwork.ts).
 */

it.each(USUAL_DRAWINGS)('$name: ten megabytes are read within ten times the file', { timeout: 60_000 }, (drawing) => {
  const text = drawing.make(drawing.segments);
  expect(text.length).toBeGreaterThan(9.5e6);
  const cost = readingCost(text, (10 * text.length) / 1e6);
  expect(cost).not.toBeNull();
  expect(cost!.heldBytes).toBeLessThan(6 * text.length);
});

it('notices a heap that is too small (faulty twin)', { timeout: 60_000 }, () => {
  const [drawing] = USUAL_DRAWINGS;
  const text = drawing!.make(drawing!.segments);
  expect(readingCost(text, (0.5 * text.length) / 1e6 + PROGRAM_HEAP_MB / 2)).toBeNull();
});
