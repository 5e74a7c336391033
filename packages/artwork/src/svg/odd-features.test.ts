import { contourBounds } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import type { Drawing } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { readSvg } from './read-svg.ts';

/** Features of the standards that programs write now and then; expected figures by hand, from the standard that is named. */

const page = (body: string, root = '', head = ''): Drawing =>
  readSvg(
    `${head}<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100" ${root}>${body}</svg>`,
    { name: 'gull.svg' },
  );
const fills = (drawing: Drawing) => drawing.shapes.map(({ fill }) => fill);
const codes = (drawing: Drawing) => [...new Set(drawing.complaints.map(({ code }) => code))];
/** Boxes as x, y, width, height, to a thousandth. */
const boxes = (drawing: Drawing) =>
  drawing.shapes.map(({ contours }) => {
    const { minX, minY, maxX, maxY } = contourBounds(contours[0]!);
    return [minX, minY, maxX - minX, maxY - minY].map((value) => Number(value.toFixed(3)) + 0);
  });

describe('paint of the element that shows it (SVG 2, Context paint)', () => {
  const symbol =
    '<defs><g id="g"><rect width="5" height="5" fill="context-fill"/><rect x="9" width="5" height="5" fill="context-stroke"/></g></defs>';

  it('is that of the nearest use', () => {
    expect(fills(page(`${symbol}<use href="#g" fill="red" stroke="blue" stroke-width="0.1"/>`))).toEqual([
      '#ff0000',
      '#0000ff',
    ]);
  });

  it('is handed on by uses within uses', () => {
    const outer = `${symbol}<defs><use id="u" href="#g" fill="context-stroke" stroke="lime" stroke-width="0.1"/></defs>`;
    expect(fills(page(`${outer}<use href="#u" fill="red" stroke="blue" stroke-width="0.1"/>`))).toEqual([
      '#0000ff',
      '#00ff00',
    ]);
  });

  it('paints nothing where there is none, and that is told', () => {
    const drawing = page('<rect width="5" height="5" fill="context-fill"/><rect width="9" height="9"/>');
    expect(drawing.shapes).toHaveLength(1);
    expect(codes(drawing)).toContain('hidden');
  });
});

describe('conditions (SVG 2, Conditional processing)', () => {
  it('leave out what is for other languages, wherever it stands, and tell', () => {
    const drawing = page(
      '<rect systemLanguage="de" width="5" height="5"/><rect systemLanguage="fr, en-GB" width="9" height="9"/>',
    );
    expect(boxes(drawing)).toEqual([[0, 0, 9, 9]]);
    expect(codes(drawing)).toContain('language');
  });

  it('choose the first child of a switch that holds, titles apart, and tell of the others', () => {
    const drawing = page(
      '<switch><title>pier</title><rect systemLanguage="de" width="5" height="5"/><rect width="9" height="9"/><rect width="7" height="7"/></switch>',
    );
    expect(boxes(drawing)).toEqual([[0, 0, 9, 9]]);
    expect(codes(drawing)).toEqual(['language']);
  });

  it('tell when a switch has nothing in English', () => {
    const drawing = page(
      '<switch><rect systemLanguage="de" width="5" height="5"/></switch><rect width="9" height="9"/>',
    );
    expect(boxes(drawing)).toEqual([[0, 0, 9, 9]]);
    expect(drawing.complaints).toMatchObject([{ code: 'language', severity: 'warning' }]);
  });
});

describe('translate, rotate and scale as properties (CSS Transforms 2, Individual transforms)', () => {
  it.each([
    ['translate: 10px 20px', [10, 20, 8, 4]],
    ['translate: 10px', [10, 0, 8, 4]],
    ['rotate: 90deg', [-4, 0, 4, 8]],
    ['rotate: z 0.25turn', [-4, 0, 4, 8]],
    ['rotate: 0 0 1 90deg', [-4, 0, 4, 8]],
    ['scale: 2', [0, 0, 16, 8]],
    ['scale: 200% 3', [0, 0, 16, 12]],
    ['scale: 2 3 1', [0, 0, 16, 12]],
    // In this order whatever order they are written in, and before `transform`.
    ['scale: 2; rotate: 90deg; translate: 50px 0', [42, 0, 8, 16]],
    ['translate: 10px; transform: scale(2)', [10, 0, 16, 8]],
    ['rotate: 90deg; transform-origin: 4px 2px', [2, -2, 4, 8]],
    ['translate: none; rotate: none; scale: none', [0, 0, 8, 4]],
  ])('%s', (style, box) => {
    const drawing = page(`<rect width="8" height="4" style="${style}"/>`);
    expect(boxes(drawing)).toEqual([box]);
    expect(codes(drawing).filter((code) => code !== 'off-page')).toEqual([]);
  });

  it('may stand in a sheet, and hold for groups', () => {
    const drawing = page(
      '<style>.a { translate: 1px 2px } g { scale: 2 }</style><g><rect class="a" width="8" height="4"/></g>',
    );
    expect(boxes(drawing)).toEqual([[2, 4, 16, 8]]);
  });

  it('are no attributes: `rotate` of texts means something else', () => {
    expect(boxes(page('<rect rotate="90" scale="2" translate="9" width="8" height="4"/>'))).toEqual([[0, 0, 8, 4]]);
  });

  it.each(['rotate: x 45deg', 'translate: 10% 0', 'scale: big', 'translate: 1px 2px 3px'])('%s is told', (style) => {
    const drawing = page(`<rect width="8" height="4" style="${style}"/><rect width="9" height="9"/>`);
    expect(boxes(drawing)).toEqual([[0, 0, 9, 9]]);
    expect(codes(drawing)).toEqual(['bad-transform']);
  });

  it('offset-path is told', () => {
    const drawing = page('<rect width="8" height="4" style="offset-path: path(&quot;M0 0h50&quot;)"/>');
    expect(drawing.complaints).toMatchObject([{ severity: 'warning' }]);
  });
});

describe('lengths (CSS Values and Units)', () => {
  it.each([
    ['<g font-size="10"><rect width="1em" height="1rem"/></g>', 'font-size="20"', [0, 0, 10, 20]],
    ['<g font-size="10"><rect width="1em" height="1rem"/></g>', '', [0, 0, 10, 16]],
    [
      '<g font-size="2rem"><g font-size="0.5em"><rect width="1em" height="2ex"/></g></g>',
      'style="font-size: 15px"',
      [0, 0, 15, 15],
    ],
    ['<g font-size="large"><rect width="1em" height="1"/></g>', '', [0, 0, 18, 1]],
    ['<g font-size="calc(1rem + 4px)"><rect width="1em" height="1"/></g>', '', [0, 0, 20, 1]],
    ['<rect width="calc(10% + 5px)" height="calc(2 * (3px + 1px))"/>', '', [0, 0, 15, 8]],
    ['<rect style="width: min(50%, 20px); height: max(1px, 2px)"/>', '', [0, 0, 20, 2]],
    ['<rect width="calc(1in / 96)" height="clamp(1px, 5px, 3px)"/>', '', [0, 0, 1, 3]],
  ])('%s on a page %s', (body, root, box) => {
    const drawing = page(body, root);
    expect(boxes(drawing)).toEqual([box]);
    expect(codes(drawing)).toEqual([]);
  });

  it.each([
    'calc(1px',
    'calc(1px * 1px)',
    'calc(1px / 0)',
    'calc(1vw)',
    'min(5, 3px)',
    `${'calc('.repeat(90)}1px`,
    'attr(x)',
  ])('%s is told when it has no value', (width) => {
    const drawing = page(`<rect width="${width}" height="5"/><rect width="9" height="9"/>`);
    const told = drawing.complaints.length > 0;
    const closedByParser = boxes(drawing).length === 2;
    expect(told || closedByParser).toBe(true);
  });

  it('opacity may be calculated: nothing is drawn at zero', () => {
    const drawing = page('<rect width="5" height="5" opacity="calc(1 - 1)"/><rect width="9" height="9"/>');
    expect(boxes(drawing)).toEqual([[0, 0, 9, 9]]);
    expect(codes(drawing)).toEqual(['hidden']);
  });
});

describe('references', () => {
  it.each(['url( #a )', "url( '#a' )", 'url(#a)', 'url(#%61)'])('%s finds its target', (reference) => {
    const drawing = page(
      `<linearGradient id="a"><stop stop-color="teal"/></linearGradient><rect width="5" height="5" fill="${reference}"/>`,
    );
    expect(fills(drawing)).toEqual(['#008080']);
  });

  it('letters beyond ASCII may be written as a URL writes them', () => {
    expect(boxes(page('<defs><rect id="möwe" width="5" height="4"/></defs><use href="#m%C3%B6we"/>'))).toEqual([
      [0, 0, 5, 4],
    ]);
  });
});

describe('entities that hold elements', () => {
  const doctype = (text: string) => `<!DOCTYPE svg [${text}]>`;

  it.each([
    ['plain', `<!ENTITY boat "<rect width='8' height='4'/>">`],
    ['as character references', `<!ENTITY boat "&#60;rect width='8' height='4'/&#x3e;">`],
    [
      'with line ends, declared twice',
      `<!ENTITY boat "<g>\n\n<rect width='8'\nheight='4'/></g>"><!ENTITY boat "<rect/>">`,
    ],
  ])('%s are read where they stand', (_, entity) => {
    const drawing = page('&boat;<g transform="translate(10 20)">&boat;</g>', '', doctype(entity));
    expect(boxes(drawing)).toEqual([
      [0, 0, 8, 4],
      [10, 20, 8, 4],
    ]);
    expect(codes(drawing)).toEqual([]);
  });

  it('are left alone in comments and character data', () => {
    const drawing = page(
      '<!-- &boat; --><desc><![CDATA[&boat;]]></desc>&boat;',
      '',
      doctype("<!ENTITY boat \"<rect width='8' height='4'/>\">"),
    );
    expect(drawing.shapes).toHaveLength(1);
  });

  it.each([
    ['hold others', '<!ENTITY a "<g>&b;</g>"><!ENTITY b "<rect width=\'5\' height=\'5\'/>">', '&a;'],
    ['bring in too much', `<!ENTITY a "<g>${' '.repeat(3)}${'x'.repeat(50_000)}</g>">`, '&a;'.repeat(40)],
    ['are too long', `<!ENTITY a "<g>${'x'.repeat(70_000)}</g>">`, '&a;'],
  ])('are refused with a sentence when they %s', (_, entity, body) => {
    try {
      page(`${body}<rect width="5" height="5"/>`, '', doctype(entity));
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(ArtworkError);
      expect((error as ArtworkError).code).toBe('entity-expansion');
    }
  });

  it('keep the numbers of lines', () => {
    const drawing = page(
      '\n&boat;\n<strange/>',
      '',
      `${doctype("<!ENTITY boat \"<rect\n\n\nwidth='8' height='4'/>\">")}`,
    );
    expect(drawing.complaints).toMatchObject([{ code: 'unknown-element', place: { element: 'strange (line 6)' } }]);
  });
});

describe('wide outlines', () => {
  it.each([
    ['fill="red" stroke="black" stroke-width="2"', true],
    ['fill="none" stroke="black" stroke-width="2"', true],
    ['fill="red" stroke="black" stroke-width="1"', false],
    ['fill="red" stroke="none" stroke-width="9"', false],
    ['fill="red" stroke="black" stroke-width="0.2" transform="scale(9)"', true],
  ])('%s: told %s', (paint, isTold) => {
    expect(codes(page(`<rect width="8" height="4" ${paint}/>`)).includes('wide-line')).toBe(isTold);
  });

  it('are measured at 96 to the inch while the size is open', () => {
    const draw = (width: number) =>
      readSvg(
        `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><rect width="50" height="50" stroke="red" stroke-width="${width}"/></svg>`,
        { name: 'x' },
      );
    expect(codes(draw(3.7))).toEqual([]);
    expect(codes(draw(3.8))).toEqual(['wide-line']);
  });
});

describe('specks and absurd scales', () => {
  it.each([
    ['a circle of 1e-15', '<circle cx="50" cy="50" r="1e-15"/>', /nothing to cut: circle.*smaller than 0\.005 mm/],
    [
      'two of them, one a line',
      '<circle cx="50" cy="50" r="1e-15"/><circle cx="50" cy="50" r="2e-15" fill="none" stroke="red"/>',
      /smaller than/,
    ],
  ])('%s alone on a page is a sentence', (_, body, message) => {
    expect(() => page(body)).toThrow(message);
  });

  it('a viewBox of subnormal size is told and not used', () => {
    for (const size of ['1e-320', '1e-300', '1e-13']) {
      const drawing = readSvg(
        `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 ${size} ${size}"><rect width="50" height="40"/><svg width="40" height="40" viewBox="0 0 ${size} 1"><rect width="8" height="4"/></svg></svg>`,
        { name: 'gull.svg' },
      );
      expect(drawing.complaints.filter(({ code }) => code === 'bad-viewbox')).toHaveLength(2);
      expect(boxes(drawing)[0]).toEqual([0, 0, 13.229, 10.583]);
    }
  });
});

describe('styles that change more than they say', () => {
  it.each([
    ['font: 20px serif', 40],
    ['font: italic bold 20px/1.5 "Sea Side", serif', 40],
    ['font: 700 20px / 30px serif', 40],
    ['font: small-caps 50% serif', 16],
    ['font-size: 9px; font: large serif', 36],
    ['font: 20px serif; font-size: 5px', 10],
  ])('%s: em counts from its size (CSS Fonts Level 4, Shorthand font property)', (style, width) => {
    const drawing = page(`<g style='${style}'><rect width="2em" height="9"/></g>`);
    expect(boxes(drawing)).toEqual([[0, 0, width, 9]]);
    expect(codes(drawing)).toEqual([]);
  });

  it.each([
    ['style="font: caption"', 'bad-style'],
    ['style="all: unset"', 'bad-style'],
    ['style="mix-blend-mode: multiply"', 'paint-replaced'],
    ['style="mask-image: url(#m)"', 'mask'],
    ['style="-webkit-mask: url(#m)"', 'mask'],
    ['transform="rotate(20deg)"', 'bad-transform'],
  ])('%s is told', (attribute, code) => {
    expect(codes(page(`<rect x="20" width="30" height="9" ${attribute}/>`))).toEqual([code]);
  });

  it('what changes nothing is not told', () => {
    const calm =
      '<rect x="30" width="9" height="9" style="mix-blend-mode: normal; mask-image: none" transform="rotate(20)"/>';
    expect(codes(page(`<g style="font: inherit">${calm}</g>`))).toEqual([]);
    expect(codes(page('<rect x="30" width="9" height="9" style="transform: rotate(20deg)"/>'))).toEqual([]);
  });
});
