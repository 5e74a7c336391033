import { polylineContour } from '@underlap/geometry/contour';
import { regionArea } from '@underlap/geometry/region';
import { expect, test } from 'vitest';
import { drawingOf, drawn, rectangle } from '../testing/fixtures.ts';
import { StackError } from './error.ts';
import { recogniseParts } from './recognise.ts';

const auto = { mode: 'auto' } as const;
const hole = { ...rectangle(20, 20, 10, 10) };

test('filled shapes on one another are parts, bottom first, with their paint', () => {
  const sign = recogniseParts(
    drawingOf([
      drawn('backer', [rectangle(0, 0, 200, 100)], { fill: '#7fb2c8' }),
      drawn('banner', [rectangle(10, 40, 180, 30)], { fill: '#23395b' }),
      drawn('letter', [rectangle(30, 45, 10, 20)], { fill: '#ffffff' }),
    ]),
    auto,
  );
  expect(sign.mode).toBe('stacked');
  expect(sign.parts.map((part) => [part.id, part.paint, part.place])).toEqual([
    ['backer', '#7fb2c8', 'assembled'],
    ['banner', '#23395b', 'assembled'],
    ['letter', '#ffffff', 'assembled'],
  ]);
  expect([sign.widthMm, sign.heightMm]).toEqual([200, 100]);
});

test('subpaths are holes by the fill rule, whatever their direction', () => {
  const sign = recogniseParts(
    drawingOf([drawn('ring', [rectangle(0, 0, 60, 60), hole], { fill: '#123456', fillRule: 'evenodd' })]),
    auto,
  );
  expect(sign.parts).toHaveLength(1);
  expect(regionArea(sign.parts[0]!.region)).toBeCloseTo(3600 - 100, 9);
});

test('separate areas of one element become parts of their own, and that is told', () => {
  const sign = recogniseParts(
    drawingOf([drawn('dots', [rectangle(0, 0, 10, 10), rectangle(50, 0, 10, 10)], { fill: '#123456' })]),
    { ...auto, mode: 'stacked' },
  );
  expect(sign.parts.map((part) => part.id)).toEqual(['dots', 'dots2']);
  expect(sign.complaints.map((complaint) => complaint.code)).toContain('several-areas');
});

test('in a spread drawing separate elements inside an outline are its holes, and parts again inside those', () => {
  const sign = recogniseParts(
    drawingOf([
      drawn('frame', [rectangle(0, 0, 100, 100)], { stroke: '#111111' }),
      drawn('window', [rectangle(20, 20, 60, 60)], { stroke: '#111111' }),
      drawn('pane', [rectangle(30, 30, 20, 20)], { stroke: '#111111' }),
      drawn('foot', [rectangle(120, 0, 30, 30)], { stroke: '#111111' }),
    ]),
    auto,
  );
  expect(sign.mode).toBe('spread');
  expect(sign.parts.map((part) => [part.id, regionArea(part.region)])).toEqual([
    ['frame', 6400],
    ['pane', 400],
    ['foot', 900],
  ]);
});

test('a colour the user calls a score makes marks, which belong to the topmost part below them', () => {
  const sign = recogniseParts(
    drawingOf([
      drawn('backer', [rectangle(0, 0, 200, 100)], { fill: '#7fb2c8' }),
      drawn('banner', [rectangle(10, 40, 180, 30)], { fill: '#23395b' }),
      drawn('line', [rectangle(20, 45, 50, 20)], { stroke: '#00ff00' }),
      drawn('stray', [rectangle(400, 400, 5, 5)], { stroke: '#00ff00' }),
    ]),
    { ...auto, key: { colours: { '#00ff00': 'score' }, layers: {} } },
  );
  expect(sign.parts.map((part) => part.marks.length)).toEqual([0, 1]);
  expect(sign.parts[1]!.marks[0]).toMatchObject({ process: 'score', partId: 'banner', lengthMm: 140 });
  expect(sign.complaints.map((complaint) => complaint.code)).toContain('mark-off-part');
});

test('ids are the same from run to run and unique', () => {
  const shapes = ['Gull', 'gull', 'GULL!'].map((name, index) =>
    drawn(name, [rectangle(40 * index, 0, 20, 20)], { fill: '#ffffff' }),
  );
  const ids = () => recogniseParts(drawingOf(shapes), auto).parts.map((part) => part.id);
  expect(ids()).toEqual(['gull', 'gull2', 'gull3']);
  expect(ids()).toEqual(ids());
});

test('a drawing without a closed shape is refused with its place', () => {
  const open = drawn('line', [{ ...rectangle(0, 0, 10, 10), closed: false }], { stroke: '#000000' });
  expect(() => recogniseParts(drawingOf([open]), auto)).toThrow(StackError);
  expect(() => recogniseParts(drawingOf([open]), auto)).toThrow(/line.*open line/);
});

test('outlines that cross are a stack even without fills', () => {
  const sign = recogniseParts(
    drawingOf([
      drawn('low', [rectangle(0, 0, 100, 50)], { stroke: '#000000' }),
      drawn('high', [rectangle(80, 10, 60, 20)], { stroke: '#000000' }),
    ]),
    auto,
  );
  expect(sign.mode).toBe('stacked');
  expect(sign.parts).toHaveLength(2);
});

test('parts that only touch, or share a cut line, lie side by side', () => {
  const sign = recogniseParts(
    drawingOf([
      drawn('left', [rectangle(0, 0, 50, 50)], { stroke: '#000000' }),
      drawn('right', [rectangle(50, 0, 50, 50)], { stroke: '#000000' }),
    ]),
    auto,
  );
  expect(sign.mode).toBe('spread');
  expect(sign.parts.map((part) => part.id)).toEqual(['left', 'right']);
});

test('an outline that crosses itself is resolved and listed as a repair with its place, or left out where repairs are refused', () => {
  const bowTie = polylineContour(Float64Array.of(0, 0, 20, 20, 20, 0, 0, 20), true);
  const drawing = drawingOf([drawn('tie', [bowTie], { fill: '#123456' }), drawn('tile', [rectangle(40, 0, 9, 9)])]);
  const sign = recogniseParts(drawing, auto);
  // Two triangles of 20 x 10 / 2, which meet at 10, 10.
  expect(sign.parts.map((part) => Math.round(regionArea(part.region)))).toEqual([100, 100, 81]);
  expect(sign.repairs).toMatchObject([{ kind: 'resolved-self-crossing', place: { at: { x: 10, y: 10 } } }]);
  const asDrawn = recogniseParts(drawing, { ...auto, repair: false });
  expect(asDrawn.parts.map((part) => part.id)).toEqual(['tile']);
  expect(asDrawn.repairs).toEqual([]);
  expect(asDrawn.complaints.find(({ code }) => code === 'crossing-outline')).toMatchObject({ severity: 'error' });
});
