import { describe, expect, it } from 'vitest';
import type { Drawing } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { readSvg } from './read-svg.ts';

/** Input made to break a reader: each must end in a clear error or a correct partial drawing, soon and in bounded memory. */

const RECT = '<rect width="5" height="5"/>';
const DEPTH = 20_000;

function page(body: string, head = ''): Drawing {
  return readSvg(
    `${head}<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${body}</svg>`,
    { name: 'wreck.svg' },
  );
}

function refusal(run: () => unknown): ArtworkError {
  try {
    run();
  } catch (error) {
    if (error instanceof ArtworkError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

const codes = (drawing: Drawing): string[] => drawing.complaints.map(({ code }) => code);

describe('entities', () => {
  it('refuses entities built from others, long ones and too many uses', () => {
    const doctype = (text: string) => `<!DOCTYPE svg [${text}]>`;
    const nested = '<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">';
    expect(refusal(() => page(`<text>&b;</text>${RECT}`, doctype(nested))).code).toBe('entity-expansion');
    expect(refusal(() => page(RECT, doctype('<!ENTITY % p "x">'))).code).toBe('entity-expansion');
    expect(refusal(() => page(RECT, doctype(`<!ENTITY a "${'a'.repeat(1000)}">`))).code).toBe('entity-expansion');
    const often = `<text>${'&a;'.repeat(20_000)}</text>`;
    expect(refusal(() => page(often, doctype(`<!ENTITY a "${'a'.repeat(200)}">`))).code).toBe('entity-expansion');
  });

  it('follows the plain abbreviations that programs write', () => {
    const head =
      '<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd" [<!ENTITY ns "http://www.w3.org/2000/svg"><!ENTITY c \'lime\'>]>';
    const text = `${head}<svg xmlns="&ns;" width="10mm" height="10mm"><rect width="5" height="5" fill="&c;"/></svg>`;
    const { shapes } = readSvg(text, { name: 'wreck.svg' });
    expect(shapes[0]!.fill).toBe('#00ff00');
  });

  it('never reads external ones', () => {
    const drawing = page(`<text>&x;</text>${RECT}`, '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>');
    expect(drawing.shapes).toHaveLength(1);
    expect(codes(drawing)).toEqual(['broken-xml', 'text']);
  });
});

describe('depth', () => {
  const deep = (open: string, inner = RECT) => page(open.repeat(DEPTH) + inner + '</g>'.repeat(DEPTH));

  it('reads groups 20,000 deep', () => {
    expect(deep('<g fill="red" transform="translate(0 0)">').shapes[0]!.fill).toBe('#ff0000');
  });

  it('stays quick with namespaces and style rules at every level', () => {
    expect(deep('<g xmlns:a="urn:a">').shapes).toHaveLength(1);
    const css = '<style>g g g g > rect{fill:lime} g g + g rect{fill:red} :not(g) g g g > g + g rect{fill:red}</style>';
    expect(page(`${css}${'<g>'.repeat(DEPTH)}${RECT}${'</g>'.repeat(DEPTH)}`).shapes[0]!.fill).toBe('#00ff00');
  });

  it('tells of a scale that multiplies beyond all numbers', () => {
    const error = refusal(() => deep('<g transform="scale(10)">'));
    expect(error.message).toContain('not a finite number');
  });

  it('survives style sheets that are nested absurdly', () => {
    const css = `${':not('.repeat(DEPTH)}a${')'.repeat(DEPTH)}{fill:red} ${'a{'.repeat(DEPTH)} ${'(['.repeat(DEPTH)}`;
    const drawing = page(`<style>${css}</style><rect width="5" height="5" style="fill:${'a('.repeat(DEPTH)}"/>`);
    expect(drawing.shapes).toHaveLength(1);
    expect(codes(drawing)).toContain('style-sheet');
  });
});

describe('references', () => {
  it('refuses to unfold a few lines into billions of elements', () => {
    const levels = Array.from({ length: 12 }, (_, i) => `<g id="u${i + 1}">${`<use href="#u${i}"/>`.repeat(10)}</g>`);
    const error = refusal(() => page(`<defs><g id="u0"/>${levels.join('')}</defs><use href="#u12"/>`));
    expect(error.code).toBe('too-large');
    expect(error.message).toContain('<use>');
  });

  it('cuts long chains', () => {
    const chain = Array.from({ length: 100 }, (_, i) => `<use id="u${i + 1}" href="#u${i}"/>`);
    const drawing = page(
      `<defs><rect id="u0" width="5" height="5"/>${chain.join('')}</defs><use href="#u100"/>${RECT}`,
    );
    expect(drawing.shapes).toHaveLength(1);
    expect(codes(drawing)).toEqual(['circular-reference']);
  });

  it('ends gradients that refer to each other', () => {
    const drawing = page(
      '<linearGradient id="a" href="#b"/><linearGradient id="b" href="#a"/><rect width="5" height="5" fill="url(#a)"/>',
    );
    expect(drawing.shapes[0]!.fill).toBe('#808080');
  });
});

describe('numbers', () => {
  it.each([
    ['<path d="M1e308 1e308L-1e308 3L5 5z" transform="scale(9)"/>', 'non-finite'],
    ['<path d="M0 0A1e308 1e308 0 0 1 1e308 5z"/>', 'out-of-range'],
    ['<path d="M0 0C1e200 5 5 1e200 5 5z"/>', 'out-of-range'],
    ['<path d="M0 0A1e12 1e12 0 1 1 5 5z"/>', 'out-of-range'],
    ['<path d="M0 0A1e160 1e10 45 0 1 5 5e5z"/>', 'non-finite'],
    ['<path d="M1e400 3L5 5"/>', 'broken-shape'],
    ['<path d="M0 0L1e300 3L5 5z"/>', 'out-of-range'],
    ['<rect x="1e7" width="5" height="5"/>', 'out-of-range'],
    ['<circle r="1e308"/>', 'out-of-range'],
    ['<rect width="5" height="5" transform="scale(1e308) scale(1e308)"/>', 'bad-transform'],
    ['<rect width="5" height="5" transform="scale(0)"/>', 'flattened'],
    ['<rect width="1e999" height="5"/>', 'broken-shape'],
    ['<polygon points="0,0 1e999,5 5,5"/>', 'broken-shape'],
  ])('leaves out %s and names it', (body, code) => {
    const drawing = page(RECT + body);
    expect(codes(drawing)).toContain(code);
    const numbers = drawing.shapes.flatMap(({ contours }) =>
      contours.flatMap(({ segments }) => [...segments].flatMap(({ to }) => [to.x, to.y])),
    );
    expect(numbers.every((value) => Math.abs(value) <= 1e6)).toBe(true);
  });
});

it('reads arcs of absurd radius as the lines that they look like', () => {
  const [shape] = page('<path d="M0 0A1e12 1e12 0 0 1 50 0A3e9 5e9 9 0 0 50 50z"/>').shapes;
  expect([...shape!.contours[0]!.segments].map(({ kind }) => kind)).toEqual(['line', 'line', 'line']);
});

describe('size', () => {
  it('refuses 100 MB of path data', () => {
    const error = refusal(() => page(`<path d="M0 0${'l1 1'.repeat(25_000_000)}"/>`));
    expect(error.code).toBe('too-large');
    expect(error.message).toContain('100 MB');
  });

  it('refuses more segments and elements than it can hold', () => {
    expect(refusal(() => page(`<path d="M0 0${'h1'.repeat(2_100_000)}"/>`)).message).toContain('2000000 path segments');
    expect(refusal(() => page('<g/>'.repeat(600_000))).message).toContain('500000 elements');
  });

  it('reads a number of a million digits as no number', () => {
    const drawing = page(`<path d="M0 0L${'9'.repeat(1_000_000)} 5"/>${RECT}`);
    expect(codes(drawing)).toEqual(['broken-shape']);
  });

  it('cuts off a style sheet that would take minutes to match', () => {
    const drawing = page(`<style>${'rect{fill:red}'.repeat(5000)}</style>${RECT.repeat(2000)}`);
    expect(drawing.complaints.at(-1)).toMatchObject({ code: 'style-sheet', severity: 'error' });
  });
});

describe('broken files', () => {
  it.each([
    [`${RECT}<path d="M0 0L1`, 1],
    [`${RECT}<g>${RECT.replace('5"', '6"')}`, 2],
    [`${RECT}<rect wid`, 1],
    [`${RECT}<!-- and then`, 1],
  ])('gives what came before the break: %s', (body, count) => {
    const text = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${body}`;
    const drawing = readSvg(text, { name: 'wreck.svg' });
    expect(drawing.shapes).toHaveLength(count);
    expect(drawing.complaints[0]).toMatchObject({ code: 'truncated', severity: 'error', place: { element: 'line 1' } });
  });

  it('goes on after small faults of the markup', () => {
    const drawing = page(
      `<rect width=6 height="5"/><circle filled r="3"/>&nbsp;<b:rect/><rect width="7" width="8" height="5"/>`,
    );
    expect(drawing.shapes).toHaveLength(3);
    expect(new Set(codes(drawing))).toEqual(new Set(['broken-xml', 'off-page']));
  });

  it.each([
    [
      'one that nothing has opened',
      '<g transform="translate(1 1)"><rect id="a" width="7" height="5"/></q><rect id="b" x="9" width="7" height="5"/></g>',
      'a 1, b 10',
    ],
    [
      'another case',
      '<g transform="translate(1 1)"><rect id="a" width="7" height="5"/></G><rect id="b" x="9" width="7" height="5"/>',
      'a 1, b 10',
    ],
    [
      'that of an element further out',
      '<g><a transform="translate(1 1)"><rect id="a" width="7" height="5"/></g><rect id="b" x="9" width="7" height="5"/>',
      'a 1, b 9',
    ],
    [
      'several',
      '</g><rect id="a" width="7" height="5"/></g></q><g transform="translate(1 1)"><rect id="b" x="9" width="7" height="5"/></g>',
      'a 0, b 10',
    ],
  ])('reads on after a wrong closing tag, as browsers do in HTML: %s', (_, body, expected) => {
    const drawing = page(body);
    expect(drawing.shapes.map(({ id, contours }) => `${id} ${contours[0]!.start.x}`).join(', ')).toBe(expected);
    // Whether the rest stands where it was meant nobody knows: an error, so that no board is cut unasked.
    expect(drawing.complaints[0]).toMatchObject({ code: 'broken-xml', severity: 'error' });
  });

  it('finds the drawing below other namespaces and prefixes', () => {
    const prefixed =
      '<s:svg xmlns:s="http://www.w3.org/2000/svg" width="9mm" height="9mm"><s:rect width="5" height="5"/><rect/></s:svg>';
    expect(readSvg(prefixed, { name: 'wreck.svg' }).shapes).toHaveLength(1);
    expect(
      readSvg('<svg width="9mm" height="9mm"><rect width="5" height="5"/></svg>', { name: 'wreck.svg' }).shapes,
    ).toHaveLength(1);
    expect(refusal(() => readSvg('<svg xmlns="urn:other"/>', { name: 'wreck.svg' })).code).toBe('not-svg');
  });
});
