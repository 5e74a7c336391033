import { expect, it } from 'vitest';
import { LARGE_DRAWINGS, type LargeDrawing } from '../support/large-drawings.ts';
import { readingCost } from '../support/reading-cost.ts';

/*
 * Memory of reading ten megabytes, measured from outside: the resident memory of a process at its highest, with all the garbage
 * that the engine has not collected, less that of the same process reading a tiny drawing. Every drawing is a process of its own.
 * Those that take more, and why, are listed in the design pages.
 */

/** Much like others here; the benchmark measures them. */
const LEFT_TO_THE_BENCHMARK = ['styled groups', 'outlines'];

const light = LARGE_DRAWINGS.filter(({ name, isLight }) => isLight && !LEFT_TO_THE_BENCHMARK.includes(name));

it.each(light)('$name: ten megabytes are read within ten times the file', { timeout: 60_000 }, (drawing) => {
  const text = drawing.make(drawing.segments);
  expect(text.length).toBeGreaterThan(9e6);
  expect(readingCost(text).grownBytes).toBeLessThan(10 * text.length);
});

it('notices a drawing whose segments are objects (faulty twin)', { timeout: 60_000 }, () => {
  const dense = LARGE_DRAWINGS.find(({ name }) => name === 'dense path') as LargeDrawing;
  const text = dense.make(dense.segments);
  expect(readingCost(text, 'unpacked').grownBytes).toBeGreaterThan(10 * text.length);
});
