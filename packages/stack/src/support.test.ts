import { regionsArea } from '@underlap/geometry/region';
import { describe, expect, it } from 'vitest';
import { drawingOf, drawn, rectangle } from '../testing/fixtures.ts';
import { fillerRegions, withFillers } from './fillers.ts';
import { buildPlaces, gluedOnTopOf, ONE_THICKNESS } from './levels.ts';
import { recogniseParts } from './recognise.ts';
import type { Sign } from './sign.ts';
import { supportComplaints, supportsOf } from './support.ts';
import { supportedSign } from './supported-sign.ts';

type Box = readonly [number, number, number, number];

/** Filled rectangles, bottom first. */
function signOf(boxes: Readonly<Record<string, Box>>): Sign {
  const shapes = Object.entries(boxes).map(([id, box]) => drawn(id, [rectangle(...box)], { fill: '#7fb2c8' }));
  return recogniseParts(drawingOf(shapes), { mode: 'stacked' });
}

const faultsOf = (sign: Sign) =>
  Object.fromEntries(
    supportsOf(buildPlaces(sign, ONE_THICKNESS)).flatMap(({ partId, fault }) =>
      fault === null ? [] : [[partId, fault]],
    ),
  );

/** A banner laid over two posts: the sample's fault before it was corrected. */
const bridge = signOf({
  backer: [0, 0, 200, 100],
  left: [40, 10, 20, 40],
  right: [140, 10, 20, 40],
  banner: [0, 40, 200, 30],
});

describe('levels', () => {
  it('come from thicknesses: what ends exactly at the underside touches, what is lower does not', () => {
    const sign = signOf({
      backer: [0, 0, 200, 100],
      thin: [10, 10, 30, 80],
      thick: [150, 10, 30, 80],
      lid: [0, 20, 200, 60],
    });
    const even = buildPlaces(sign, () => 6);
    expect(even.map(({ bottomMm, topMm }) => [bottomMm, topMm])).toEqual([
      [0, 6],
      [6, 12],
      [6, 12],
      [12, 18],
    ]);
    expect(even[3]!.gluedTo.map(({ partId, areaMm2 }) => [partId, areaMm2])).toEqual([
      ['thin', 1800],
      ['thick', 1800],
    ]);
    const uneven = buildPlaces(sign, (id) => (id === 'thin' ? 3 : 6));
    expect(uneven[3]!.bottomMm).toBe(12);
    expect(uneven[3]!.gluedTo.map(({ partId }) => partId)).toEqual(['thick']);
    expect(regionsArea(uneven[3]!.gluedTo[0]!.regions)).toBeCloseTo(1800, 6);
    expect(gluedOnTopOf(uneven, 'backer').map(({ partId }) => partId)).toEqual(['thin', 'thick']);
    expect(gluedOnTopOf(uneven, 'thin')).toEqual([]);
  });

  it('a thinner part below another on equal heights may make up for a thicker one', () => {
    const sign = signOf({
      backer: [0, 0, 200, 100],
      low: [10, 10, 30, 80],
      pad: [10, 10, 30, 80],
      high: [150, 10, 30, 80],
      lid: [0, 20, 200, 60],
    });
    const places = buildPlaces(sign, (id) => (id === 'low' || id === 'pad' ? 3 : 6));
    expect(places[4]!.gluedTo.map(({ partId }) => partId)).toEqual(['pad', 'high']);
  });

  it('a drawn overlap of a hair is no step to stand on', () => {
    const hair = signOf({ backer: [0, 0, 200, 100], tower: [50, 10, 40, 40], lamp: [50, 0.2, 40, 10] });
    expect(buildPlaces(hair, ONE_THICKNESS)[2]!.gluedTo.map(({ partId }) => partId)).toEqual(['backer']);
    const lap = signOf({ backer: [0, 0, 200, 100], tower: [50, 10, 40, 40], lamp: [50, 1, 40, 10] });
    expect(buildPlaces(lap, ONE_THICKNESS)[2]!.gluedTo.map(({ partId }) => partId)).toEqual(['tower']);
  });
});

describe('supports', () => {
  it('tell a sliver, a part that hangs, one that tips and one that lies apart, and nothing of good work', () => {
    expect(faultsOf(bridge)).toEqual({ banner: 'rests-on-sliver' });
    expect(faultsOf(signOf({ backer: [0, 0, 200, 100], oar: [20, 20, 100, 8], letter: [40, 12, 12, 16] }))).toEqual({
      letter: 'hangs',
    });
    expect(faultsOf(signOf({ backer: [0, 0, 200, 100], flag: [170, 20, 70, 20] }))).toEqual({ flag: 'tips' });
    expect(faultsOf(signOf({ backer: [0, 0, 200, 100], banner: [0, 40, 200, 30], star: [220, 20, 20, 20] }))).toEqual({
      star: 'lies-apart',
    });
    expect(
      faultsOf(signOf({ backer: [0, 0, 200, 100], banner: [-10, 40, 220, 30], letter: [30, 45, 10, 20] })),
    ).toEqual({});
  });

  it('are told with area, place and remedy', () => {
    const places = buildPlaces(bridge, ONE_THICKNESS);
    const told = supportComplaints(places, supportsOf(places));
    expect(told).toHaveLength(1);
    expect(told[0]).toMatchObject({ code: 'rests-on-sliver', severity: 'warning', place: { at: { x: 100, y: 45 } } });
    // two laps of 20 x 10 mm of 200 x 30
    expect(told[0]!.message).toContain('left and right with only 4.0 cm2 of its 60 cm2');
    expect(told[0]!.message).toContain('--fillers banner');
  });

  it('many parts beside one another are a kit, noted and not warned of', () => {
    const kit = supportedSign(
      signOf({ a: [0, 0, 20, 20], b: [30, 0, 20, 20], c: [60, 0, 20, 20] }),
      'none',
      ONE_THICKNESS,
    );
    expect(kit.complaints.filter(({ severity }) => severity === 'warning')).toEqual([]);
  });
});

describe('fillers', () => {
  it('take up the air below a part, inside it and beside what carries it', () => {
    const [filler, ...others] = fillerRegions(buildPlaces(bridge, ONE_THICKNESS), 'banner', 1);
    expect(others).toEqual([]);
    // 197 x 27 less two bays of 21 x 9, corners rounded
    expect(regionsArea([filler!])).toBeGreaterThan(197 * 27 - 2 * 21 * 9.1 - 120);
    expect(regionsArea([filler!])).toBeLessThan(197 * 27 - 2 * 21 * 8.9);
    expect(fillerRegions(buildPlaces(bridge, ONE_THICKNESS), 'left', 1)).toEqual([]);
    // a gap thinner than the stock takes none
    expect(fillerRegions(buildPlaces(bridge, ONE_THICKNESS), 'banner', 2)).toEqual([]);
  });

  it('become parts of the sign, below the part, and mend the complaint', () => {
    const filled = supportedSign(bridge, 'all', ONE_THICKNESS);
    expect(filled.parts.map(({ id }) => id)).toEqual(['backer', 'left', 'right', 'banner-filler-1', 'banner']);
    expect(filled.complaints.map(({ code }) => code)).not.toContain('rests-on-sliver');
    const banner = buildPlaces(filled, ONE_THICKNESS).at(-1)!;
    expect(banner.part.id).toBe('banner');
    expect(banner.gluedTo.map(({ partId }) => partId)).toEqual(['left', 'right', 'banner-filler-1']);
    expect(supportedSign(bridge, 'none', ONE_THICKNESS).complaints.map(({ code }) => code)).toContain(
      'rests-on-sliver',
    );
    expect(withFillers(bridge, ['left'], [], ONE_THICKNESS)).toBe(bridge);
  });

  it('stand on one another where the air is two boards high', () => {
    const sign = signOf({
      backer: [0, 0, 200, 100],
      low: [40, 10, 20, 40],
      high: [40, 10, 20, 40],
      banner: [0, 40, 200, 30],
    });
    const filled = supportedSign(sign, ['banner'], ONE_THICKNESS);
    const places = buildPlaces(filled, ONE_THICKNESS);
    expect(places.map(({ part, level }) => [part.id, level])).toEqual([
      ['backer', 0],
      ['low', 1],
      ['high', 2],
      ['banner-filler-1', 1],
      ['banner-filler-2', 2],
      ['banner', 3],
    ]);
    expect(places[5]!.gluedTo.map(({ partId }) => partId)).toEqual(['high', 'banner-filler-2']);
  });
});
