import { contourArea, contourLength } from '@underlap/geometry/contour';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Drawing, ReadOptions } from '../drawing.ts';
import { readSvg } from '../svg/read-svg.ts';

/** A page in mm; lines are drawn without a fill unless a test says otherwise. */
function page(body: string, options: Partial<ReadOptions> = {}): Drawing {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100" fill="none" stroke="#b5179e">${body}</svg>`;
  return readSvg(text, { name: 'pier.svg', ...options });
}

const path = (d: string, attributes = ''): string => `<path d="${d}" ${attributes}/>`;
const kinds = (drawing: Drawing): string[] => drawing.repairs.map(({ kind }) => kind);
const codes = (drawing: Drawing): string[] => drawing.complaints.map(({ code }) => code);
const contours = (drawing: Drawing) => drawing.shapes.flatMap((shape) => shape.contours);

describe('near-closed outlines', () => {
  const gapped = path('M10 10h50v50h-50v-49.95');

  it('are closed, told with place and size', () => {
    const drawing = page(gapped);
    expect(contours(drawing)[0]!.closed).toBe(true);
    expect(drawing.repairs).toMatchObject([{ kind: 'closed-gap', place: { element: 'path (line 1)' } }]);
    expect(drawing.repairs[0]!.sizeMm).toBeCloseTo(0.05, 9);
    expect(drawing.repairs[0]!.place.at!.x).toBeCloseTo(10, 9);
    expect(drawing.repairs[0]!.place.at!.y).toBeCloseTo(10.05, 9);
  });

  it('are closed over the gap that the user allows, and no wider', () => {
    const wide = path('M10 10h50v50h-50v-49.7');
    expect(kinds(page(wide, { closeGapMm: 0.5 }))).toEqual(['closed-gap']);
    expect(kinds(page(wide))).toEqual([]);
    expect(codes(page(wide))).toEqual(['nearly-closed']);
    expect(kinds(page(gapped, { closeGapMm: 0 }))).toEqual([]);
  });

  it('are left and complained of when repairs are refused', () => {
    const drawing = page(gapped, { repair: false });
    expect(contours(drawing)[0]!.closed).toBe(false);
    expect(drawing.repairs).toEqual([]);
    expect(codes(drawing)).toEqual(['nearly-closed']);
  });

  it('do not take a short line for an outline', () => {
    const drawing = page(path('M10 10l0.05 0.05') + path('M20 20l0.1 0'));
    expect(contours(drawing).some(({ closed }) => closed)).toBe(false);
    expect(drawing.repairs).toEqual([]);
  });

  it('measures gaps in mm at the size that the user gives', () => {
    const text =
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000 1000" fill="none" stroke="red"><path d="M10 10h500v500h-500v-499.5"/></svg>';
    const read = (widthMm: number) => readSvg(text, { name: 'pier.svg', widthMm });
    expect(kinds(read(100))).toEqual(['closed-gap']);
    expect(read(100).repairs[0]!.sizeMm).toBeCloseTo(0.05, 9);
    expect(kinds(read(1000))).toEqual([]);
  });
});

describe('filled areas', () => {
  it('keep the outline that the fill shows, and a wide gap is told', () => {
    for (const repair of [true, false]) {
      const drawing = page(path('M10 10h50v50', 'fill="teal" stroke="none"'), { repair });
      expect(contours(drawing)[0]).toMatchObject({ closed: true });
      expect(Math.abs(contourArea(contours(drawing)[0]!))).toBe(1250);
      expect(drawing.repairs).toEqual([]);
      expect(codes(drawing)).toEqual(['open-filled']);
    }
  });
});

describe('doubles', () => {
  const square = 'M10 10h50v50h-50z';

  it.each([
    ['the same again', square],
    ['from another start', 'M60 10v50h-50v-50z'],
    ['the other way round', 'M10 10v50h50v-50z'],
    ['with more points', 'M10 10h20h30v25v25h-50v-10z'],
    ['0.03 mm off', 'M10.03 10h50v50h-50z'],
    ['as a rect', null],
  ])('are removed: %s', (_, d) => {
    const again = d === null ? '<rect x="10" y="10" width="50" height="50"/>' : path(d);
    const drawing = page(path(square, 'id="deck"') + again);
    expect(kinds(drawing)).toEqual(['removed-double']);
    expect(drawing.repairs[0]!.message).toContain("path 'deck'");
    expect(drawing.shapes.map(({ id }) => id)).toEqual(['deck']);
  });

  it.each([
    ['0.2 mm off', 'M10.2 10h50v50h-50z'],
    ['the same corners joined crosswise', 'M10 10L60 60L60 10L10 60z'],
    ['of the same box', 'M10 10h50v50z'],
    ['with a notch', 'M10 10h24v1h2v-1h24v50h-50z'],
  ])('are not seen where there are none: %s', (_, d) => {
    expect(kinds(page(path(square) + path(d)))).toEqual([]);
  });

  it('are not seen across colours: one line may be scored and cut', () => {
    expect(kinds(page(path(square) + path(square, 'stroke="#000"')))).toEqual([]);
  });

  it('are removed among open lines', () => {
    expect(kinds(page(path('M10 10L60 40') + path('M60 40L10 10')))).toEqual(['removed-double']);
  });

  it('are complained of when repairs are refused', () => {
    const drawing = page(path(square) + path(square), { repair: false });
    expect(drawing.shapes).toHaveLength(2);
    expect(codes(drawing)).toEqual(['double-line']);
  });

  it('are removed within one element, unless they cancel its fill', () => {
    expect(kinds(page(path(square + square)))).toEqual(['removed-double']);
    const filled = page(path(square + square, 'fill="teal"'));
    expect(kinds(filled)).toEqual(['removed-double']);
    const cancelled = page(path(square + square, 'fill="teal" fill-rule="evenodd"'));
    expect(kinds(cancelled)).toEqual([]);
    expect(codes(cancelled)).toEqual(['cancelling-double']);
    expect(codes(page(path(`${square}M10 10v50h50v-50z`, 'fill="teal"')))).toEqual(['cancelling-double']);
  });

  it('keep equal sheets of a stack apart from sheets drawn twice', () => {
    const sheet = (id: string) => path(square, `id="${id}" fill="teal"`);
    const between = '<circle cx="30" cy="30" r="8" fill="#fff"/>';
    const twice = page(sheet('a') + sheet('b'));
    expect(twice.shapes.map(({ id }) => id)).toEqual(['a']);
    const stacked = page(sheet('a') + between + sheet('b'));
    expect(stacked.shapes).toHaveLength(3);
    expect(codes(stacked)).toEqual(['equal-shapes']);
    const copied = page(sheet('a') + between + sheet('b') + between);
    expect(copied.shapes.map(({ id }) => id)).toEqual(['a', 'circle-1']);
    const layers = page(`<g id="lower">${sheet('a')}</g><g id="upper">${sheet('b')}</g>`);
    expect(layers.shapes).toHaveLength(2);
    expect(codes(layers)).toEqual(['equal-shapes']);
  });

  it('leave an equal hole in two filled parts alone', () => {
    const hole = 'M20 20h5v5h-5z';
    const drawing = page(
      path(`M10 10h50v50h-50z${hole}`, 'fill="teal"') + path(`M15 15h50v50h-50z${hole}`, 'fill="teal"'),
    );
    expect(drawing.repairs).toEqual([]);
    expect(contours(drawing)).toHaveLength(4);
  });

  it('are found in any place, turn and start (property)', () => {
    const points = fc.array(fc.tuple(fc.integer({ min: 5, max: 90 }), fc.integer({ min: 5, max: 90 })), {
      minLength: 4,
      maxLength: 9,
    });
    fc.assert(
      fc.property(points, fc.nat(8), fc.boolean(), (corners, shift, isReversed) => {
        const turned = corners.map((_, i) => corners[(i + shift) % corners.length]!);
        const again = isReversed ? turned.reverse() : turned;
        const polygon = (list: typeof corners) => `<polygon points="${list.join(' ')}"/>`;
        const once = page(polygon(corners), { closeGapMm: 0 });
        const drawing = page(polygon(corners) + polygon(again), { closeGapMm: 0 });
        expect(contours(drawing)).toHaveLength(contours(once).length);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe('points', () => {
  it('without a distance between them are dropped', () => {
    const drawing = page(path('M10 10h50l0 0v50l0.001 0.001h-50c0 0 0 0 0 0z'));
    expect(drawing.repairs).toMatchObject([{ kind: 'dropped-points' }]);
    expect(drawing.repairs[0]!.message).toContain('3 points');
    expect(drawing.repairs[0]!.sizeMm).toBeLessThan(0.005);
    expect(contours(drawing)[0]!.segments).toHaveLength(4);
    expect(contours(drawing)[0]!.segments.at(-1)!.to).toEqual(contours(drawing)[0]!.start);
  });

  it('before an arc give way to its start, and between arcs stay: an arc has to fit its centre', () => {
    const before = page(path('M10 10h50v30l0.002 0a20 20 0 0 1 -20 20h-30z'));
    expect(kinds(before)).toEqual(['dropped-points']);
    expect(contours(before)[0]!.segments.at(1)!.to).toEqual({ x: 60.002, y: 40 });
    const between = page(path('M10 10h50a9 9 0 0 1 0 18l0.002 0a9 9 0 0 1 0 18h-50z'));
    expect(between.repairs).toEqual([]);
  });

  it('are told but kept when repairs are refused', () => {
    const drawing = page(path('M10 10h50l0 0v50h-50z'), { repair: false });
    expect(codes(drawing)).toEqual(['near-points']);
    expect(contours(drawing)[0]!.segments).toHaveLength(5);
  });

  it('along a fine curve are not eaten one after the other', () => {
    const steps = Array.from(
      { length: 2000 },
      (_, i) => `L${50 + 30 * Math.cos(i / 318.31)} ${50 + 30 * Math.sin(i / 318.31)}`,
    );
    const fine = page(path(`M80 50${steps.slice(1).join('')}`), { closeGapMm: 1 });
    expect(contourLength(contours(fine)[0]!)).toBeCloseTo(2 * Math.PI * 30, 1);
  });
});

describe('loose lines', () => {
  const edges = ['M10 10h50', 'M60 60v-50', 'M60 60h-50', 'M10 10v50'];

  it('that come round become one outline, whatever their order and direction', () => {
    for (const body of [edges.map((d) => path(d)).join(''), path(edges.join(' '))]) {
      const drawing = page(body);
      expect(drawing.shapes).toHaveLength(1);
      expect(contours(drawing)).toHaveLength(1);
      expect(Math.abs(contourArea(contours(drawing)[0]!))).toBe(2500);
      expect(drawing.repairs).toMatchObject([{ kind: 'chained-segments', sizeMm: 0 }]);
    }
  });

  it('keep their arcs', () => {
    const drawing = page(path('M10 10a20 20 0 0 1 40 0') + path('M10 10H50'));
    expect([...contours(drawing)[0]!.segments].map(({ kind }) => kind)).toEqual(['arc', 'line']);
    expect(Math.abs(contourArea(contours(drawing)[0]!))).toBeCloseTo(Math.PI * 200, 9);
  });

  it('are bridged within the gap', () => {
    const drawing = page(path('M10 10h50') + path('M60 10.06v50') + path('M60 60h-50v-50.05'));
    expect(drawing.repairs).toMatchObject([{ kind: 'chained-segments' }]);
    expect(drawing.repairs[0]!.sizeMm).toBeCloseTo(Math.hypot(0.06), 9);
  });

  it('are left where it is not clear which belong together', () => {
    const junction = page(`${edges.map((d) => path(d)).join('')}${path('M60 60l20 20')}`);
    expect(kinds(junction)).toEqual([]);
    expect(
      kinds(
        page(
          edges
            .slice(1)
            .map((d) => path(d))
            .join(''),
        ),
      ),
    ).toEqual([]);
  });

  it('of other colours do not mix', () => {
    expect(kinds(page(edges.map((d, i) => path(d, i === 0 ? 'stroke="#000"' : '')).join('')))).toEqual([]);
  });

  it('that only run to and fro are no outline', () => {
    expect(kinds(page(path('M10 10h25') + path('M35 10h25') + path('M60 10h-50')))).toEqual([]);
  });

  it('are told when repairs are refused', () => {
    const drawing = page(edges.map((d) => path(d)).join(''), { repair: false });
    expect(drawing.shapes).toHaveLength(4);
    expect(codes(drawing)).toEqual(['loose-lines']);
  });

  it('that double an outline are removed with it', () => {
    const drawing = page(path('M10 10h50v50h-50z') + edges.map((d) => path(d)).join(''));
    expect(drawing.shapes).toHaveLength(1);
    expect(kinds(drawing).sort()).toEqual(['chained-segments', 'removed-double']);
  });
});

describe('a gap of exactly the width that is closed', () => {
  it.each([0.1, 0.3, 0.7])('%s mm is closed, whatever the digits of its ends, in one path and between lines', (gap) => {
    for (let at = 0; at < 100; at++) {
      const x = Number((at * 0.37 + 0.013).toFixed(3));
      const end = Number((x + gap).toFixed(3));
      const one = page(path(`M${x} 7.1V27.1H${x + 20}V7.1H${end}`), { closeGapMm: gap });
      expect(kinds(one)).toEqual(['closed-gap']);
      const two = page(path(`M${x} 7.1V27.1H${x + 20}`) + path(`M${x + 20} 27.1V7.1H${end}`), { closeGapMm: gap });
      expect(kinds(two)).toEqual(['chained-segments']);
    }
  });
});
