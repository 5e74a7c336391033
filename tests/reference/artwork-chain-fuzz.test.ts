import { describe, expect, it } from 'vitest';
import { chainOutcome, chainRun } from '../support/spoil-chain.ts';

it('takes 300 spoilt drawings through reading, inspecting and finding parts, with no other error', {
  timeout: 240_000,
}, () => {
  const { counts } = chainRun('suite', 300);
  expect(counts.refused + counts['no sign'] + counts.sign).toBe(300);
  // Every end of the road is reached often enough for the check to mean something.
  expect(counts.sign).toBeGreaterThan(50);
  expect(counts.refused).toBeGreaterThan(15);
});

describe('numbers at the edge of what can be computed', () => {
  const svg = (body: string, root = 'width="100mm" height="100mm" viewBox="0 0 100 100"') =>
    `<svg xmlns="http://www.w3.org/2000/svg" ${root}>${body}</svg>`;

  it.each([
    ['far out', svg('<rect x="999990" width="50" height="50"/><rect width="50" height="50"/>')],
    ['an arc that bulges far out', svg('<path d="M0 0A600000 600000 0 1 1 50 0Z"/><rect width="50" height="50"/>')],
    ['specks', svg('<circle cx="50" cy="50" r="1e-15"/><circle cx="50" cy="50" r="2e-15" fill="none" stroke="red"/>')],
    [
      'a subnormal viewBox',
      svg('<rect width="5e-320" height="5e-320"/>', 'width="10mm" height="10mm" viewBox="0 0 1e-320 1e-320"'),
    ],
  ])('%s ends in a sign or a documented error', (_, text) => {
    expect(['sign', 'no sign', 'refused']).toContain(chainOutcome(text));
  });
});
