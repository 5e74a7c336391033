import { transformContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { placementMatrix } from '@underlap/geometry/matrix';
import { regionBounds } from '@underlap/geometry/region';
import { expect, test } from 'vitest';
import { drawingOf, drawn, rectangle } from '../testing/fixtures.ts';
import { coverOf } from './cover.ts';
import { rebuildStack } from './rebuild-stack.ts';
import { recogniseParts } from './recognise.ts';

const cut = { stroke: '#b5179e' };
const score = { stroke: '#3a7d44' };
const options = { mode: 'spread', key: { colours: { '#3a7d44': 'score' }, layers: {} } } as const;
const moved = (contour: Contour, x: number, y: number, turn: number) =>
  transformContour(contour, placementMatrix(x, y, turn));

const banner = rectangle(20, 50, 160, 40);
const letter = rectangle(40, 55, 12, 30);
/** The letter is drawn on the banner, the banner lies below the backer in the drawing. */
const spread = recogniseParts(
  drawingOf([
    drawn('backer', [rectangle(0, 0, 200, 120)], cut),
    drawn('banner-seat', [banner], score),
    drawn('banner', [moved(banner, 0, 150, 0)], cut),
    drawn('letter-seat', [moved(letter, 0, 150, 0)], score),
    drawn('letter', [moved(letter, 300, 0, 90)], cut),
    drawn('spare', [rectangle(300, 300, 33, 21)], cut),
  ]),
  options,
);

test('parts travel to their outlines, through the part that carries them', () => {
  const sign = rebuildStack(spread);
  expect(sign.parts.map((part) => [part.id, part.place])).toEqual([
    ['backer', 'assembled'],
    ['spare', 'drawn'],
    ['banner', 'assembled'],
    ['letter', 'assembled'],
  ]);
  const box = regionBounds(sign.parts.find((part) => part.id === 'letter')!.region);
  for (const [key, value] of Object.entries({ minX: 40, minY: 55, maxX: 52, maxY: 85 })) {
    expect(box[key as keyof typeof box]).toBeCloseTo(value, 6);
  }
  expect(sign.matches.map((match) => [match.partId, match.onPartId, Math.round(match.turnDeg) % 180])).toEqual([
    ['banner', 'backer', 0],
    ['letter', 'banner', 90],
  ]);
  expect(coverOf(sign, 'backer')).toHaveLength(1);
  expect(sign.complaints.filter((complaint) => complaint.code === 'unplaced-part')).toHaveLength(1);
});

test('equal parts are handed out in drawing order and called ambiguous', () => {
  const seats = [0, 1, 2].map((k) => drawn(`seat-${k}`, [rectangle(10 + 30 * k, 10, 20, 15)], score));
  const parts = [0, 1, 2].map((k) => drawn(`tile-${k}`, [rectangle(300, 40 * k, 20, 15)], cut));
  const sign = rebuildStack(
    recogniseParts(drawingOf([drawn('ground', [rectangle(0, 0, 200, 60)], cut), ...seats, ...parts]), options),
  );
  expect(sign.matches.map((match) => [match.partId, match.markId, match.ambiguous])).toEqual([
    ['tile-0', 'seat-0', true],
    ['tile-1', 'seat-1', true],
    ['tile-2', 'seat-2', true],
  ]);
});

test('a wrong outline places nothing', () => {
  const sign = rebuildStack(
    recogniseParts(
      drawingOf([
        drawn('ground', [rectangle(0, 0, 200, 60)], cut),
        drawn('seat', [rectangle(10, 10, 50, 20)], score),
        drawn('tile', [rectangle(300, 0, 50, 24)], cut),
      ]),
      options,
    ),
  );
  expect(sign.matches).toEqual([]);
  expect(sign.parts.every((part) => part.place === 'drawn')).toBe(true);
});
