import { expect, it } from 'vitest';
import { type RandomSpread, randomSpread, type SeatKind } from './support/random-spread.ts';
import { scoreSpread, sumOf } from './support/score-spread.ts';

/*
 * Finding the stack again: made-up signs whose parts lie spread out, turned by any angle, with some of them equal and some
 * that belong nowhere. The truth is known from the making and never read from the drawing.
 */

const signs = (kind: SeatKind, count: number): RandomSpread[] =>
  Array.from({ length: count }, (_, i) => randomSpread(String(i), kind));

/** Outlines of the truth are polylines of 240 points: up to 0.02 mm inside their curves. */
const TOLERANCE_MM: Readonly<Record<SeatKind, number>> = { exact: 0.02, inset: 0.1, noisy: 0.4 };

it.each([
  ['exact', 6],
  ['noisy', 2],
  ['inset', 3],
] as const)('lays every part on its outline when that is drawn %s', { timeout: 60_000 }, (kind, count) => {
  const score = sumOf(signs(kind, count).map((sign) => scoreSpread(sign, TOLERANCE_MM[kind])));
  expect(score.seats).toBeGreaterThan(7 * count);
  expect(score).toEqual({ seats: score.seats, matched: score.seats, right: score.seats });
});

it('leaves parts alone whose outlines are those of other parts (faulty twin)', () => {
  const [sign] = signs('exact', 1);
  // Every outline grown by a tenth: nothing fits any more, and nothing may be matched.
  const [cuts, scores] = sign!.svg.split('<g id="scores">');
  const grown = scores!.replace(/rotate\(([^)]*)\)/g, 'rotate($1) scale(1.1)');
  const score = scoreSpread({ ...sign!, svg: `${cuts}<g id="scores">${grown}` }, TOLERANCE_MM.exact);
  expect(score.right).toBe(0);
  expect(score.matched).toBeLessThan(score.seats / 4);
});

it('never lays a part on its mirror image', () => {
  const [sign] = signs('exact', 1);
  const mirrored = sign!.svg.replace(/(<path id="seat-\d+"[^>]*rotate\([^)]*\))/g, (head) => `${head} scale(-1 1)`);
  const lopsided = sign!.truth.seats.filter(({ kind }) => kind === 'banner').length;
  const score = scoreSpread({ ...sign!, svg: mirrored }, TOLERANCE_MM.exact);
  expect(lopsided).toBe(1);
  // Stars, ovals and rectangles are their own mirror images; the blobs are not.
  expect(score.matched).toBeLessThan(score.seats);
});
