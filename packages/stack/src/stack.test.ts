import { clipPolyline, polylineLength } from '@underlap/geometry/clip-polyline';
import { offsetRegions } from '@underlap/geometry/offset';
import { regionsArea } from '@underlap/geometry/region';
import { expect, test } from 'vitest';
import { drawingOf, drawn, rectangle } from '../testing/fixtures.ts';
import { coverOf } from './cover.ts';
import { guidesOf } from './guides.ts';
import { buildPlaces, ONE_THICKNESS } from './levels.ts';
import { paintNeeds } from './paint.ts';
import { recogniseParts } from './recognise.ts';

const sign = recogniseParts(
  drawingOf([
    drawn('backer', [rectangle(0, 0, 200, 100)], { fill: '#7fb2c8' }),
    drawn('post', [rectangle(90, 10, 20, 50)], { fill: '#ffffff' }),
    drawn('banner', [rectangle(-10, 40, 220, 30)], { fill: '#23395b' }),
    drawn('letter', [rectangle(30, 45, 10, 20)], { fill: '#ffffff' }),
  ]),
  { mode: 'stacked' },
);

const places = buildPlaces(sign, ONE_THICKNESS);

test('the cover is the union of what lies above', () => {
  // Post 20 x 50 and banner 220 x 30 overlap by 20 x 20; the letter lies on the banner.
  expect(regionsArea(coverOf(sign, 'backer'))).toBeCloseTo(1000 + 6600 - 400, 6);
  expect(regionsArea(coverOf(sign, 'banner'))).toBeCloseTo(200, 6);
  expect(coverOf(sign, 'letter')).toEqual([]);
});

test('places say what each part is glued to, from the backer up', () => {
  const glued = places.map(({ part, gluedTo }) => [
    part.id,
    gluedTo.map(({ partId }) => partId),
    Math.round(gluedTo.reduce((sum, { areaMm2 }) => sum + areaMm2, 0)),
  ]);
  expect(glued).toEqual([
    ['backer', [], 0],
    ['post', ['backer'], 1000],
    ['banner', ['post'], 400],
    ['letter', ['banner'], 200],
  ]);
});

test('paint goes where nothing is glued on', () => {
  const white = paintNeeds(sign, places).find((need) => need.paint === '#ffffff')!;
  expect(white.partIds).toEqual(['post', 'letter']);
  expect(white.faceAreaMm2).toBeCloseTo(1200, 6);
  expect(white.bareAreaMm2).toBeCloseTo(400, 6);
  expect(white.visibleAreaMm2).toBeCloseTo(800, 6);
});

test('every guide vanishes below the part it is for, and lies on the part it is drawn on', () => {
  const inset = 0.8;
  const guides = guidesOf(sign, inset);
  expect(guides.map((guide) => `${guide.forPartId} on ${guide.onPartId}`)).toEqual([
    'post on backer',
    'banner on backer',
    'banner on post',
    'letter on banner',
  ]);
  const region = (id: string) => sign.parts.find((part) => part.id === id)!.region;
  for (const guide of guides) {
    const shrunk = offsetRegions([region(guide.forPartId)], -(inset - 0.01));
    for (const line of guide.lines) {
      const showing = clipPolyline(line, false, shrunk, 'outside');
      expect(showing.reduce((sum, stretch) => sum + polylineLength(stretch), 0)).toBeLessThan(1e-6);
      const off = clipPolyline(line, false, [region(guide.onPartId)], 'outside');
      expect(off).toEqual([]);
    }
  }
  // Faulty twin: drawn on the outline itself the same line would show.
  const bare = clipPolyline(region('post').outer, true, offsetRegions([region('post')], -(inset - 0.01)), 'outside');
  expect(bare.length).toBeGreaterThan(0);
});
