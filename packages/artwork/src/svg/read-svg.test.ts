import { contourArea, contourBounds } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import type { Drawing, DrawnShape, ReadOptions } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { readSvg } from './read-svg.ts';

/** A page of 200 x 100 mm whose user units are mm. */
function page(body: string, options: Partial<ReadOptions> = {}): Drawing {
  return file(`width="200mm" height="100mm" viewBox="0 0 200 100"`, body, options);
}

function file(attributes: string, body: string, options: Partial<ReadOptions> = {}): Drawing {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${attributes}>${body}</svg>`;
  return readSvg(text, { name: 'pier.svg', ...options });
}

const RECT = '<rect width="20" height="10"/>';
const only = (drawing: Drawing): DrawnShape => {
  expect(drawing.shapes).toHaveLength(1);
  return drawing.shapes[0]!;
};
const box = (shape: DrawnShape): number[] => {
  const { minX, minY, maxX, maxY } = contourBounds(shape.contours[0]!);
  return [minX, minY, maxX, maxY].map((value) => Math.round(value * 1e9) / 1e9 + 0);
};
const boxOf = (body: string): number[] => box(only(page(body)));
const codes = (drawing: Drawing): string[] => drawing.complaints.map(({ code }) => code);
const refusal = (run: () => unknown): ArtworkError => {
  try {
    run();
  } catch (error) {
    if (error instanceof ArtworkError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};

describe('shape elements', () => {
  const areaOf = (body: string): number => contourArea(only(page(body)).contours[0]!);

  it('reads each with its exact area', () => {
    expect(areaOf('<rect x="5" y="5" width="20" height="10"/>')).toBe(200);
    expect(areaOf('<rect width="20" height="10" rx="3"/>')).toBeCloseTo(200 - (4 - Math.PI) * 9, 9);
    expect(areaOf('<rect width="20" height="10" rx="30" ry="2"/>')).toBeCloseTo(200 - (4 - Math.PI) * 20, 9);
    expect(areaOf('<circle cx="30" cy="30" r="10"/>')).toBeCloseTo(Math.PI * 100, 9);
    expect(areaOf('<ellipse cx="30" cy="30" rx="10" ry="5"/>')).toBeCloseTo(Math.PI * 50, 9);
    expect(areaOf('<ellipse cx="30" cy="30" rx="10" ry="auto"/>')).toBeCloseTo(Math.PI * 100, 9);
    expect(areaOf('<polygon points="0,0 10,0 10,10"/>')).toBe(50);
    expect(areaOf('<polyline points="0 0 10 0 10 10"/>')).toBe(50);
    expect(areaOf('<path d="M0 0h10v10z"/>')).toBe(50);
  });

  it('keeps circles and rounded corners as arcs', () => {
    const kinds = (body: string) => [...only(page(body)).contours[0]!.segments].map(({ kind }) => kind);
    expect(new Set(kinds('<circle r="10" cx="20" cy="20"/>'))).toEqual(new Set(['arc']));
    expect(kinds('<rect width="20" height="10" rx="3"/>').filter((kind) => kind === 'arc')).toHaveLength(4);
    expect(new Set(kinds('<g transform="scale(2 1)"><circle r="10" cx="20" cy="20"/></g>'))).toEqual(
      new Set(['ellipse']),
    );
    expect(new Set(kinds('<g transform="rotate(30) scale(-2 2)"><circle r="10" cx="20" cy="20"/></g>'))).toEqual(
      new Set(['arc']),
    );
  });

  it('leaves a line open and without a fill', () => {
    const line = only(page('<line x1="1" y1="2" x2="5" y2="2" stroke="red"/>'));
    expect(line).toMatchObject({ fill: null, stroke: '#ff0000' });
    expect(line.contours[0]).toMatchObject({ closed: false });
  });

  it.each([
    ['<rect width="-5" height="5"/>', 'broken-shape'],
    ['<circle r="-1"/>', 'broken-shape'],
    ['<rect width="5furlongs" height="5"/>', 'broken-shape'],
    ['<rect width="NaN" height="5"/>', 'broken-shape'],
    ['<polygon points="0,0 10,0 10"/>', 'broken-shape'],
    ['<path d="M0 0L5 5L5 x"/>', 'broken-shape'],
    ['<rect width="0" height="5"/>', 'nothing-drawn'],
    ['<path d=""/>', 'nothing-drawn'],
  ])('tells what is wrong with %s', (body, code) => {
    expect(codes(page(RECT + body))).toContain(code);
  });

  it('keeps the points before a fault', () => {
    const drawing = page('<polygon points="0,0 10,0 10,10 7"/>');
    expect(Math.abs(contourArea(only(drawing).contours[0]!))).toBe(50);
    expect(drawing.complaints[0]).toMatchObject({ code: 'broken-shape', place: { element: 'polygon (line 1)' } });
  });
});

describe('place', () => {
  it('nests transforms from the outside in', () => {
    expect(boxOf(`<g transform="translate(10 5)"><g transform="scale(2)">${RECT}</g></g>`)).toEqual([10, 5, 50, 25]);
    expect(boxOf('<rect width="20" height="10" style="transform: translate(5px, 1mm)"/>')).toEqual([
      5, 3.779527559, 25, 13.779527559,
    ]);
    expect(boxOf('<rect width="20" height="10" transform="rotate(90)" transform-origin="10 10"/>')).toEqual([
      10, 0, 20, 20,
    ]);
  });

  it('leaves out what has a transform that cannot be read, and says so', () => {
    const drawing = page(`${RECT}<g transform="matrix(NaN 0 0 1 0 0)">${RECT}</g>`);
    expect(drawing.shapes).toHaveLength(1);
    expect(drawing.complaints[0]).toMatchObject({ code: 'bad-transform', severity: 'error' });
  });

  it('shows what use refers to, moved and styled by the use', () => {
    const drawing = page(
      `<defs><g id="gull" fill="inherit">${RECT}</g></defs><use href="#gull" x="5" y="6" fill="#123456"/><use xlink:href="#gull"/>`,
    );
    expect(drawing.shapes.map(box)).toEqual([
      [5, 6, 25, 16],
      [0, 0, 20, 10],
    ]);
    expect(drawing.shapes.map(({ fill }) => fill)).toEqual(['#123456', '#000000']);
    expect(new Set(drawing.shapes.map(({ id }) => id)).size).toBe(2);
  });

  it('fits symbols and nested drawings into their viewports', () => {
    const symbol = '<symbol id="s" viewBox="0 0 20 10"><rect width="20" height="10"/></symbol>';
    expect(boxOf(`${symbol}<use href="#s" x="10" width="40" height="40"/>`)).toEqual([10, 10, 50, 30]);
    expect(
      boxOf(
        `<svg x="10" y="10" width="40" height="40" viewBox="0 0 20 10" preserveAspectRatio="xMinYMax">${RECT}</svg>`,
      ),
    ).toEqual([10, 30, 50, 50]);
    expect(boxOf(`<svg width="40" height="40" viewBox="0 0 20 10" preserveAspectRatio="none">${RECT}</svg>`)).toEqual([
      0, 0, 40, 40,
    ]);
    expect(boxOf('<svg width="50%" height="50%"><rect width="50%" height="100%"/></svg>')).toEqual([0, 0, 50, 50]);
  });

  it.each([
    [`<g id="a">${RECT}<use href="#a"/></g>`, 'circular-reference'],
    [`${RECT}<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`, 'circular-reference'],
    [`${RECT}<use href="#nowhere"/>`, 'missing-reference'],
    [`${RECT}<use href="other.svg#gull"/>`, 'missing-reference'],
    [`${RECT}<use/>`, 'missing-reference'],
  ])('tells of references that lead nowhere: %s', (body, code) => {
    expect(codes(page(body))).toContain(code);
  });

  it('tells what lies off the page', () => {
    const drawing = page(`${RECT}<rect x="250" width="5" height="5"/><rect x="190" width="20" height="5"/>`);
    expect(drawing.complaints.map(({ code, severity }) => [code, severity])).toEqual([
      ['off-page', 'warning'],
      ['off-page', 'note'],
    ]);
  });
});

describe('style', () => {
  const fillOf = (body: string): string | null => only(page(body)).fill;
  const sheet = (css: string, body: string): string | null => fillOf(`<style>${css}</style>${body}`);
  const rect = (attributes: string): string => `<rect width="20" height="10" ${attributes}/>`;

  it('inherits, and lets the nearer and the stronger win', () => {
    expect(fillOf(rect(''))).toBe('#000000');
    expect(fillOf(`<g fill="red">${rect('')}</g>`)).toBe('#ff0000');
    expect(fillOf(`<g fill="red">${rect('fill="lime"')}</g>`)).toBe('#00ff00');
    expect(fillOf(rect('fill="red" style="fill:lime"'))).toBe('#00ff00');
    expect(sheet('rect{fill:lime}', rect('fill="red"'))).toBe('#00ff00');
    expect(sheet('rect{fill:red}', rect('style="fill:lime"'))).toBe('#00ff00');
    expect(sheet('rect{fill:lime !important}', rect('style="fill:red"'))).toBe('#00ff00');
    expect(sheet('.a{fill:lime} rect{fill:red}', rect('class="b a"'))).toBe('#00ff00');
    expect(sheet('#a{fill:lime} .a.a.a{fill:red}', rect('class="a" id="a"'))).toBe('#00ff00');
    expect(sheet('rect{fill:red} rect{fill:lime}', rect(''))).toBe('#00ff00');
  });

  it.each([
    'g rect',
    'g > rect',
    'svg g rect',
    'circle + rect',
    'circle ~ rect',
    '[data-wood]',
    '[data-wood="oak"]',
    '[data-wood^=o][data-wood$=k][data-wood*=a]',
    'rect:not(.pine)',
    ':is(circle, rect)',
    'g > :last-child',
    '*',
    'circle, rect',
    'svg|rect',
  ])('knows the selector %s', (selector) => {
    const body = `<style>${selector}{fill:lime}</style><g><circle/>${rect('data-wood="oak"')}</g>`;
    expect(only(page(body)).fill).toBe('#00ff00');
  });

  it.each([
    'g > g > rect',
    'rect + rect',
    '.oak',
    '#oak',
    'rect:hover',
    'rect:first-child',
    'circle rect',
    '[data-wood=oa]',
  ])('does not match %s', (selector) => {
    expect(
      only(page(`<style>${selector}{fill:red}</style><g><circle/>${rect('data-wood="oak" fill="lime"')}</g>`)).fill,
    ).toBe('#00ff00');
  });

  it('tells what a sheet asks for in vain', () => {
    const drawing = page(
      `<style>@import "a.css"; rect:has(g){fill:red} @media (max-width: 3px){rect{fill:red}}</style>${RECT}`,
    );
    expect(codes(drawing)).toEqual(['style-sheet', 'style-sheet', 'style-sheet']);
    expect(
      codes(page(`<style>@media screen{rect{fill:lime}} @media print{rect{fill:red}} @font-face{}</style>${RECT}`)),
    ).toEqual([]);
  });

  it('follows currentColor, inherit and wrong values', () => {
    expect(fillOf(`<g color="lime">${rect('fill="currentColor"')}</g>`)).toBe('#00ff00');
    // CSS Color 4: the keyword is inherited, not the colour that it had further out.
    expect(fillOf(`<g color="red" fill="currentColor"><g color="lime">${rect('')}</g></g>`)).toBe('#00ff00');
    expect(fillOf(`<g fill="lime">${rect('fill="inherit"')}</g>`)).toBe('#00ff00');
    const drawing = page(`<g fill="lime">${rect('fill="reddish"')}</g>`);
    expect(only(drawing).fill).toBe('#00ff00');
    expect(codes(drawing)).toEqual(['bad-style']);
  });

  it('paints in one colour what has several', () => {
    const gradient = '<linearGradient id="a"><stop stop-color="lime"/><stop stop-color="red"/></linearGradient>';
    const drawing = page(`${gradient}<linearGradient id="b" href="#a"/>${rect('fill="url(#b)"')}`);
    expect(only(drawing).fill).toBe('#00ff00');
    expect(codes(drawing)).toEqual(['paint-replaced']);
    expect(fillOf(rect('fill="url(#none) lime"'))).toBe('#00ff00');
  });

  it.each([
    'display="none"',
    'visibility="hidden"',
    'fill="none"',
    'opacity="0"',
    'fill-opacity="0%"',
    'fill="transparent"',
    'style="display:none"',
    'fill="none" stroke="red" stroke-width="0"',
  ])('leaves out what is not seen, and says so: %s', (attributes) => {
    const drawing = page(RECT + rect(attributes));
    expect(drawing.shapes).toHaveLength(1);
    expect(drawing.complaints).toMatchObject([{ code: 'hidden', severity: 'note' }]);
  });

  it('hides with the group and shows again what is made visible', () => {
    expect(page(`${RECT}<g display="none">${rect('display="inline"')}</g>`).shapes).toHaveLength(1);
    expect(page(`<g visibility="hidden">${rect('visibility="visible"')}</g>`).shapes).toHaveLength(1);
    expect(page(`${RECT}<g opacity="0">${rect('')}</g>`).shapes).toHaveLength(1);
  });

  it('measures strokes in mm', () => {
    const width = (attributes: string, outer = '') =>
      only(page(`<g ${outer}>${rect(`fill="none" stroke="red" ${attributes}`)}</g>`)).strokeWidthMm;
    expect(width('')).toBe(1);
    expect(width('stroke-width="0.2"', 'transform="scale(2)"')).toBeCloseTo(0.4);
    expect(width('stroke-width="0.2" vector-effect="non-scaling-stroke"', 'transform="scale(2)"')).toBeCloseTo(0.2);
  });

  it('chooses the first child of a switch that English readers see', () => {
    const body = `<switch><foreignObject requiredExtensions="x"/><g systemLanguage="fr">${RECT}${RECT}</g><g>${rect('fill="lime"')}</g><g>${RECT}</g></switch>`;
    expect(only(page(body)).fill).toBe('#00ff00');
  });
});

describe('what no outline can be taken from', () => {
  it.each([
    ['<text x="5" y="6">Ahoy</text>', 'text', 'convert it to outlines'],
    ['<image href="a.png" width="5" height="5"/>', 'bitmap', 'trace it'],
    ['<foreignObject/>', 'foreign-content', 'draw it as shapes'],
    [
      '<clipPath id="c"><text>pier</text></clipPath><rect width="5" height="5" clip-path="url(#c)"/>',
      'clip-path',
      'cut the shapes',
    ],
    ['<mask id="m"/><rect width="5" height="5" style="mask:url(#m)"/>', 'mask', 'cut the shapes'],
    ['<filter id="f"/><rect width="5" height="5" filter="url(#f)"/>', 'filter', 'left out'],
    ['<pattern id="p"/><rect width="5" height="5" fill="url(#p)"/>', 'paint-replaced', 'plain colour'],
    ['<marker id="k"/><path d="M0 0h5" stroke="red" marker-end="url(#k)"/>', 'marker', 'convert them'],
    ['<path d="M0 0h5" stroke="red" stroke-dasharray="2 1"/>', 'dashed', 'draw the dashes'],
    ['<rect width="5" height="5"><animate/></rect>', 'none', ''],
    ['<sparkle/>', 'unknown-element', 'left out'],
  ])('tells of %s', (body, code, advice) => {
    const told = page(RECT + body).complaints.filter((complaint) => complaint.code === code);
    if (code === 'none') return;
    expect(told).toHaveLength(1);
    expect(told[0]!.message).toContain(advice);
  });

  it('says nothing of a clip that clips nothing', () => {
    const clip = '<clipPath id="page"><rect width="200" height="100"/></clipPath>';
    expect(codes(page(`${clip}<g clip-path="url(#page)">${RECT}</g>`))).toEqual([]);
  });

  it('cuts to a nested viewport, and tells', () => {
    const nested = (overflow: string) => `<svg width="10" height="10"${overflow}>${RECT}</svg>`;
    expect(codes(page(nested('')))).toEqual(['clipped']);
    expect(codes(page(nested(' overflow="visible"')))).toEqual([]);
    expect(codes(page(`<g clip-path="url(#gone)">${RECT}</g>`))).toEqual([]);
  });

  it('says nothing of text that is switched off', () => {
    expect(codes(page(`${RECT}<text display="none">Ahoy</text>`))).toEqual(['hidden']);
  });

  it('names the place in drawing units', () => {
    const [told] = page(
      `${RECT}<g transform="translate(10 20)"><text id="name" x="5" y="6">Ahoy</text></g>`,
    ).complaints;
    expect(told!.place).toEqual({ element: "text 'name' (line 1)", at: { x: 15, y: 26 } });
  });

  it('counts what would be too many to read', () => {
    const drawing = page(RECT + '<text/>'.repeat(100));
    expect(drawing.complaints).toHaveLength(41);
    expect(drawing.complaints.at(-1)!.message).toContain('60 more');
  });

  it('ignores other namespaces, comments and scripts', () => {
    const drawing = page(
      `<!-- <rect/> --><x:rect xmlns:x="urn:x" width="5" height="5"/><script>"<rect/>"</script><metadata><rect width="1" height="1"/></metadata>${RECT}`,
    );
    expect(drawing.shapes).toHaveLength(1);
    expect(drawing.complaints).toEqual([]);
  });
});

describe('names', () => {
  it('takes labels, titles and ids, nearest group first', () => {
    const drawing =
      page(`<g id="motifs" xmlns:d="urn:d" d:label="Motifs"><g id="g12"><path id="gull" d="M0 0h5v5z"/></g>
      <g id="sea"><rect width="5" height="5"><title>Small  wave</title></rect><rect data-name="Foam" width="4" height="4"/></g></g><rect width="3" height="3"/>`);
    expect(drawing.shapes.map(({ id, name, layer }) => [id, name, layer])).toEqual([
      ['gull', 'gull', 'Motifs'],
      ['rect-1', 'Small wave', 'sea'],
      ['rect-2', 'Foam', 'sea'],
      ['rect-3', null, null],
    ]);
  });

  it('never gives an id twice', () => {
    const drawing = page(
      `<rect id="a" width="5" height="5"/><rect id="a" width="6" height="5"/><rect id="a~2" width="7" height="5"/>`,
    );
    expect(new Set(drawing.shapes.map(({ id }) => id)).size).toBe(3);
  });

  it('undoes escapes of ids', () => {
    expect(only(page('<rect id="Sea_x20_gull" width="5" height="5"/>')).name).toBe('Sea gull');
  });
});

describe('true size', () => {
  const sizeOf = (attributes: string, options: Partial<ReadOptions> = {}) => file(attributes, RECT, options).size;

  it.each([
    ['width="200mm" height="100mm" viewBox="0 0 20 10"', 200, 100],
    ['width="20cm" viewBox="0 0 20 10"', 200, 100],
    ['height="4in" viewBox="0 0 20 10"', 203.2, 101.6],
    ['width="144pt" height="6pc"', 50.8, 25.4],
    ['width="400Q" height="100%" viewBox="0 0 20 10"', 100, 50],
  ])('is known from %s', (attributes, widthMm, heightMm) => {
    const size = sizeOf(attributes);
    if (size.kind !== 'known') throw new Error('open');
    expect(size.source).toBe('file');
    expect(size.widthMm).toBeCloseTo(widthMm, 9);
    expect(size.heightMm).toBeCloseTo(heightMm, 9);
  });

  it('keeps coordinates exact where the viewBox is in mm', () => {
    expect(
      file('width="200mm" height="100mm" viewBox="0 0 200 100"', '<rect x="0.1" y="0.7" width="20" height="10"/>')
        .shapes[0]!.contours[0]!.start,
    ).toEqual({ x: 0.1, y: 0.7 });
  });

  it.each([
    ['width="960" height="480"', 960],
    ['width="960px" height="480px" viewBox="0 0 20 10"', 960],
    ['viewBox="0 0 960 480"', 960],
    ['width="100%" height="100%" viewBox="0 0 960 480"', 960],
    ['', 20],
  ])('is open with both customary readings for %s', (attributes, width) => {
    const size = sizeOf(attributes);
    if (size.kind !== 'open') throw new Error('known');
    expect(size.choices.map(({ perInch }) => perInch)).toEqual([96, 72]);
    expect(size.choices[0]!.widthMm).toBeCloseTo((width / 96) * 25.4, 9);
    expect(size.choices[1]!.heightMm).toBeCloseTo((width / 2 / 72) * 25.4, 9);
  });

  it('keeps user units while open and takes the answer', () => {
    const open = 'viewBox="0 0 960 480"';
    expect(box(file(open, RECT).shapes[0]!)).toEqual([0, 0, 20, 10]);
    const byWidth = file(open, RECT, { widthMm: 480 });
    expect(byWidth.size).toEqual({ kind: 'known', widthMm: 480, heightMm: 240, source: 'user' });
    expect(box(byWidth.shapes[0]!)).toEqual([0, 0, 10, 5]);
    const byInch = file(open, RECT, { perInch: 72 });
    expect(byInch.size).toMatchObject({ kind: 'known', source: 'user' });
    expect(box(byInch.shapes[0]!)[2]).toBeCloseTo((20 / 72) * 25.4, 9);
  });

  it('lets a width override the file, and units to the inch not', () => {
    const stated = 'width="200mm" height="100mm" viewBox="0 0 200 100"';
    expect(sizeOf(stated, { widthMm: 100 })).toEqual({ kind: 'known', widthMm: 100, heightMm: 50, source: 'user' });
    const drawing = file(stated, RECT, { perInch: 72 });
    expect(drawing.size).toMatchObject({ widthMm: 200, source: 'file' });
    expect(codes(drawing)).toEqual(['size-option-unused']);
  });

  it.each([
    ['width="16000mm" height="9000mm"', true],
    ['width="16mm" height="9mm"', true],
    ['width="400mm" height="10mm"', false],
  ])('says when it looks like a mistaken unit: %s', (attributes, isTold) => {
    expect(codes(file(`${attributes} viewBox="0 0 200 100"`, RECT)).includes('unlikely-size')).toBe(isTold);
  });

  it('does not take a width of no known unit for a number', () => {
    const drawing = file('width="16m" height="10m" viewBox="0 0 200 100"', RECT);
    expect(drawing.size.kind).toBe('open');
    expect(codes(drawing)).toEqual(['bad-length', 'bad-length']);
  });

  it.each([{ widthMm: 0 }, { widthMm: Number.NaN }, { perInch: -96 }, { closeGapMm: Number.POSITIVE_INFINITY }])(
    'refuses %j',
    (options) => {
      expect(refusal(() => page(RECT, options)).code).toBe('bad-option');
    },
  );
});

describe('refusals', () => {
  it.each([
    ['', 'it draws no shape'],
    ['<text/>', 'no letter'],
    [`<g display="none">${RECT}</g>`, 'switched off'],
  ])('an empty drawing says why: %s', (body, why) => {
    const error = refusal(() => page(body));
    expect(error.code).toBe('empty-drawing');
    expect(error.message).toContain('pier.svg');
    expect(error.message).toContain(why);
  });
});
