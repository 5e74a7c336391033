import { buildPlaces } from '@underlap/stack/levels';
import { recogniseParts } from '@underlap/stack/recognise';
import { expect, it } from 'vitest';
import { drawingOf, drawn, rectangle } from '../../stack/testing/fixtures.ts';
import { gluedAreaMm2, glueMl } from './glue.ts';
import { type PaintHabits, paintPlan } from './paint-plan.ts';

const HABITS: PaintHabits = {
  paints: [{ name: 'sea blue', colours: ['#7fb2c8'], coats: 3, squareMetresPerLitre: 12, pricePerLitre: 40 }],
  coats: 2,
  squareMetresPerLitre: 10,
  paintLoss: 0,
  paintEdges: false,
  paintBacks: false,
  bareInset: 1,
};
const sign = recogniseParts(
  drawingOf([
    drawn('backer', [rectangle(0, 0, 200, 100)], { fill: '#7fb2c8' }),
    drawn('banner', [rectangle(50, 20, 100, 50)], { fill: '#23395b' }),
    drawn('gull', [rectangle(60, 30, 20, 10)], { fill: '#ffffff' }),
  ]),
  { mode: 'stacked' },
);
const thicknessOf = () => 6;
const places = buildPlaces(sign, thicknessOf);
const planned = (habits: Partial<PaintHabits> = {}) =>
  paintPlan({ sign, places, thicknessOf }, { ...HABITS, ...habits });

it('takes the coverage on the tin: area x coats / coverage', () => {
  const blue = planned().colours.find(({ colour }) => colour === '#7fb2c8')!;
  // 200 x 100 less 100 x 50 = 15,000 mm2 = 0.015 m2; three coats at 12 m2 a litre are 3.75 ml, at 40 a litre 0.15.
  expect(blue.facesMm2).toBeCloseTo(15_000, 6);
  expect(blue.millilitres).toBeCloseTo(3.75, 9);
  expect(blue.money).toBeCloseTo(0.15, 9);
  expect(blue.tin).toBe('sea blue');
});

it('adds edges, backs that show, and what stays in the brush', () => {
  const white = (habits: Partial<PaintHabits>) => planned(habits).colours.find(({ colour }) => colour === '#ffffff')!;
  expect(white({ paintEdges: true }).edgesMm2).toBeCloseTo(60 * 6, 9);
  expect(white({ paintBacks: true }).backsMm2).toBeCloseTo(0, 6);
  expect(white({ paintLoss: 0.5 }).millilitres).toBeCloseTo(((200e-6 * 2) / 10) * 1000 * 1.5, 9);
  const blue = planned({ paintBacks: true }).colours.find(({ colour }) => colour === '#7fb2c8')!;
  expect(blue.backsMm2).toBeCloseTo(20_000, 6);
});

it('keeps glued faces bare, an inset inside what hides them', () => {
  const { bare } = planned();
  expect(bare.map(({ partId }) => partId)).toEqual(['backer', 'banner']);
  // Steiner: a rectangle shrunk by 1 all round.
  expect(bare[0]!.areaMm2).toBeCloseTo(98 * 48, 1);
  expect(bare[1]!.areaMm2).toBeCloseTo(18 * 8, 1);
});

it('spreads glue over what touches', () => {
  expect(gluedAreaMm2(places)).toBeCloseTo(5000 + 200, 6);
  expect(glueMl(gluedAreaMm2(places), { mlPerSquareMetre: 150 })).toBeCloseTo(0.78, 9);
});
