import { expect, it } from 'vitest';
import { processByName } from './layer-words.ts';

it.each([
  ['score', 'score'],
  ['SCORE_LINES', 'score'],
  ['02 ScoreGuides', 'score'],
  ['Deep score', 'deep-score'],
  ['engraving (fill)', 'engrave'],
  ['inner cuts', 'cut'],
  ['Cut', 'cut'],
  ['scoreboard', null],
  ['cut and score', null],
  ['banner', null],
  ['0', null],
  [null, null],
])('the name %j speaks of %j', (layer, process) => {
  expect(processByName(layer)).toBe(process);
});
