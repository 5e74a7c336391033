import { regionArea } from '@underlap/geometry/region';
import { expect, test } from 'vitest';
import { drawingOf, drawn, rectangle } from '../testing/fixtures.ts';
import { recogniseParts } from './recognise.ts';

const auto = { mode: 'auto' } as const;
const LINE = { stroke: '#111111' } as const;

/** A backer of 200 x 100 with two holes of 10 x 10, an island of 4 x 4 in one of them, and a banner over its edge. */
const stack = (backer: string | null, banner: string | null) =>
  drawingOf([
    drawn('backer', [rectangle(0, 0, 200, 100)], { ...LINE, layer: backer }),
    drawn('hole-left', [rectangle(20, 10, 10, 10)], { ...LINE, layer: backer }),
    drawn('hole-right', [rectangle(170, 10, 10, 10)], { ...LINE, layer: backer }),
    drawn('island', [rectangle(23, 13, 4, 4)], { ...LINE, layer: backer }),
    drawn('banner', [rectangle(-20, 40, 240, 30)], { ...LINE, layer: banner }),
  ]);

test('in a stack of bare lines an outline inside another of its layer is a hole, and that is told', () => {
  const sign = recogniseParts(stack('backer', 'banner'), auto);
  expect(sign.mode).toBe('stacked');
  // 200 x 100 less two holes of 100 mm2; the island; the banner 240 x 30.
  expect(sign.parts.map((part) => [part.id, regionArea(part.region)])).toEqual([
    ['backer', 19_800],
    ['island', 16],
    ['banner', 7200],
  ]);
  expect(sign.complaints.filter(({ code }) => code === 'paired-holes')).toHaveLength(1);
});

test('a part of another layer that lies wholly inside stays a part', () => {
  const { shapes } = stack('backer', 'banner');
  const gull = drawn('gull', [rectangle(80, 75, 20, 10)], { ...LINE, layer: 'gull' });
  const sign = recogniseParts(drawingOf([...shapes, gull]), auto);
  expect(sign.parts.map((part) => part.id)).toEqual(['backer', 'island', 'banner', 'gull']);
});

test('colours tell parts apart where there are no layers', () => {
  const { shapes } = stack(null, null);
  const coloured = shapes.map((shape) => (shape.id === 'banner' ? { ...shape, stroke: '#0072b2' } : shape));
  expect(recogniseParts(drawingOf(coloured), auto).parts.map((part) => part.id)).toEqual([
    'backer',
    'island',
    'banner',
  ]);
});

test('with one layer and colour nothing tells holes from parts: they stay parts, with a warning', () => {
  const sign = recogniseParts(stack('all', 'all'), auto);
  expect(sign.parts).toHaveLength(5);
  expect(sign.complaints.find(({ code }) => code === 'hole-or-part')).toMatchObject({ severity: 'warning' });
});

test('a compound path says what is a hole, so nothing is paired', () => {
  const { shapes } = stack('backer', 'banner');
  const ring = drawn('ring', [rectangle(90, 74, 20, 20), rectangle(95, 79, 10, 10)], {
    ...LINE,
    layer: 'ring',
    fillRule: 'evenodd',
  });
  const sign = recogniseParts(drawingOf([...shapes, ring]), auto);
  expect(sign.parts).toHaveLength(6);
  expect(sign.complaints.map(({ code }) => code)).not.toContain('paired-holes');
});

test('in a spread drawing holes on a layer that is not named for them are told: they may be parts', () => {
  const shapes = [
    drawn('backer', [rectangle(0, 0, 200, 100)], { ...LINE, layer: 'backer' }),
    drawn('banner', [rectangle(20, 40, 160, 30)], { ...LINE, layer: 'banner' }),
  ];
  const spread = recogniseParts(drawingOf(shapes), auto);
  expect(spread.mode).toBe('spread');
  expect(spread.parts.map((part) => regionArea(part.region))).toEqual([15_200]);
  expect(spread.complaints.find(({ code }) => code === 'hole-or-part')).toMatchObject({ severity: 'warning' });
  // The advice works.
  const stacked = recogniseParts(drawingOf(shapes), { ...auto, mode: 'stacked' });
  expect(stacked.parts.map((part) => part.id)).toEqual(['backer', 'banner']);
  const named = shapes.map((shape) => (shape.id === 'banner' ? { ...shape, layer: 'inner cuts' } : shape));
  expect(recogniseParts(drawingOf(named), auto).complaints.map(({ code }) => code)).not.toContain('hole-or-part');
});
