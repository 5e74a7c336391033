import { readArtwork } from '@underlap/artwork/read-artwork';
import { inspectDrawing } from '@underlap/job/inspect';
import { jobFrom } from '@underlap/job/parse-job';
import { assertUsable, signStage } from '@underlap/job/sign-stage';
import type { Sign } from '@underlap/stack/sign';
import { describe, expect, it } from 'vitest';

/*
 * What a drawing means: how people draw signs and cut files (common practice, no source), and what must come of it. Every
 * drawing here was once misread without a word.
 */

const page = (body: string, width = 600, height = 300): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">${body}</svg>`;
const LINE = 'fill="none" stroke="#000000"';
/** A lopsided sail about 0, 0; it fits in one place only. */
const sail = (x: number, y: number, k = 1): string =>
  `M${x} ${y - 30 * k}L${x + 24 * k} ${y + 22 * k}L${x - 14 * k} ${y + 30 * k}L${x - 20 * k} ${y - 4 * k}Z`;
const rect = (x: number, y: number, w: number, h: number): string => `M${x} ${y}h${w}v${h}h${-w}Z`;

function signOf(text: string, artwork: object = {}): Sign {
  const job = jobFrom({ bed: '900x900', boards: ['900x900'], artwork }, 'a.json');
  return signStage(readArtwork(text, { name: 'pier.svg' }), job);
}

const codes = (sign: Sign): string[] => sign.complaints.map(({ code }) => code);
const told = (sign: Sign, code: string): string =>
  sign.complaints
    .filter((entry) => entry.code === code)
    .map(({ severity, message }) => `${severity}: ${message}`)
    .join('\n');

/** A backer, a banner that is wider than it, and two sails, with guides for all on `seats`. */
function spread(seats: string): string {
  const parts = [
    `<path id="backer" ${LINE} d="${rect(10, 10, 200, 150)}"/>`,
    `<path id="banner" ${LINE} d="M10 200L250 195L245 235L12 240Z"/>`,
    `<path id="sail-a" ${LINE} d="${sail(320, 60)}"/>`,
    `<path id="sail-b" ${LINE} d="${sail(420, 60, 0.8)}"/>`,
  ];
  return page(`<g id="parts">${parts.join('')}</g>${seats}`);
}
/** The banner's guide reaches 20 mm over the backer on both sides, so that it is outermost and crosses it. */
const GUIDES = `<path id="g1" %LOOK% d="M-10 90L230 85L225 125L-8 130Z"/><path id="g2" %LOOK% d="${sail(60, 50)}"/><path id="g3" %LOOK% d="${sail(140, 50, 0.8)}"/>`;
const guides = (look: string): string => GUIDES.replaceAll('%LOOK%', look);

describe('guides of a spread drawing', () => {
  it.each([
    ['a layer called score, in a colour of its own', `<g id="score">${guides('fill="none" stroke="#cc2200"')}</g>`],
    ['a layer called score, in the colour of the cuts', `<g id="score">${guides(LINE)}</g>`],
    ['a layer whose name says nothing', `<g id="where they go">${guides(LINE)}</g>`],
    ['a colour of its own', guides('fill="none" stroke="#cc2200"')],
    ['filled areas of a colour of their own', guides('fill="#cc2200"')],
  ])('are found on %s, also where one runs over the edge of its part', (_, seats) => {
    const sign = signOf(spread(seats));
    expect(sign.mode).toBe('spread');
    expect(sign.parts.map(({ id }) => id).sort()).toEqual(['backer', 'banner', 'sail-a', 'sail-b']);
    expect(sign.matches.map(({ partId, onPartId }) => `${partId} on ${onPartId}`).sort()).toEqual([
      'banner on backer',
      'sail-a on backer',
      'sail-b on backer',
    ]);
    expect(codes(sign).some((code) => code === 'twin-guides' || code === 'layer-name')).toBe(true);
  });

  it('in the colour and on the layer of what is cut are asked about, and a key answers', () => {
    const inside = `<path id="g2" ${LINE} d="${sail(60, 50)}"/><path id="g3" ${LINE} d="${sail(140, 50, 0.8)}"/>`;
    const drawn = spread('').replace('</g>', `${inside}</g>`);
    const sign = signOf(drawn);
    expect(told(sign, 'twin-outlines')).toMatch(/^warning: 2 outlines .* \('sail-a', 'sail-b'\), and are cut as holes/);
    expect(told(sign, 'holes')).toMatch(/2 in 'backer'/);
  });

  it('that match nothing leave their parts told by name', () => {
    const sign = signOf(spread(`<g id="score">${guides(LINE).replace(/<path id="g3".*/, '')}</g>`));
    expect(told(sign, 'unplaced-part')).toMatch(/^warning: .*'sail-b'/);
  });

  it('are not seen in a stacked sign with equal motifs in several colours (faulty twin)', () => {
    const sign = signOf(
      page(
        `<path id="backer" fill="#224466" d="${rect(10, 10, 500, 200)}"/><path id="a" fill="#ffcc00" d="${sail(60, 60)}"/><path id="b" fill="#ffcc00" d="${sail(160, 60)}"/><path id="c" fill="#cc2200" d="${sail(260, 60)}"/>`,
      ),
    );
    expect(sign.mode).toBe('stacked');
    expect(sign.parts).toHaveLength(4);
    expect(codes(sign)).not.toContain('twin-guides');
    expect(codes(sign)).not.toContain('twin-outlines');
  });
});

describe('the key', () => {
  const drawn = page(
    `<g id="plates"><path id="plate" ${LINE} d="${rect(10, 10, 200, 150)}"/></g><g id="inlay"><path id="disc" ${LINE} d="${rect(40, 40, 30, 30)}"/></g>`,
  );

  it('takes layers as well as colours, whatever their case, and a layer stands above a colour', () => {
    expect(signOf(drawn).parts[0]!.shape.holes).toHaveLength(1);
    const key = { layerKey: { INLAY: 'engrave' }, colourKey: { '#000000': 'cut' } };
    const sign = signOf(drawn, key);
    expect(sign.parts[0]!.shape.holes).toHaveLength(0);
    expect(sign.parts[0]!.marks.map(({ process }) => process)).toEqual(['engrave']);
  });

  it('tells of a layer that is nowhere', () => {
    expect(told(signOf(drawn, { layerKey: { inlya: 'score' } }), 'key-unused')).toMatch(/'inlya'.*'plates', 'inlay'/);
  });

  it.each([
    [
      'a filled area in a cut outline',
      `<path id="p" ${LINE} d="${rect(10, 10, 200, 150)}"/><path id="t" fill="#111111" d="${rect(40, 40, 50, 20)}"/>`,
    ],
    ['guides on a layer', spread(`<g id="score">${guides(LINE)}</g>`).replace(/<\/?svg[^>]*>/g, '')],
    [
      'a score told by the job',
      `<path id="p" ${LINE} d="${rect(10, 10, 200, 150)}"/><path id="t" fill="none" stroke="#cc2200" d="${rect(40, 40, 50, 20)}"/>`,
    ],
  ])('what inspection prints is what is planned: %s', (_, body) => {
    const drawing = readArtwork(page(body), { name: 'pier.svg' });
    const job = jobFrom({ bed: '900x900', boards: ['900x900'] }, 'a.json');
    const inspection = inspectDrawing(drawing, job.artwork);
    const sign = signStage(drawing, job);
    expect(inspection.uses).toEqual(sign.uses);
    const marked = new Set(sign.parts.flatMap((part) => part.marks.map(({ process }) => process as string)));
    const printed = new Set(inspection.uses.map(({ process }) => process as string));
    for (const process of ['score', 'engrave']) expect(printed.has(process)).toBe(marked.has(process));
  });

  it('a filled area in a cut outline is engraved, told, and a part when the key says so', () => {
    const body = `<path id="p" ${LINE} d="${rect(10, 10, 200, 150)}"/><path id="t" fill="#111111" d="${rect(40, 40, 50, 20)}"/>`;
    const sign = signOf(page(body));
    expect(sign.parts).toHaveLength(1);
    expect(sign.parts[0]!.marks[0]!.process).toBe('engrave');
    expect(told(sign, 'fill-in-cut')).toMatch(/^warning: .*--key "#111111=paint"/);
    expect(signOf(page(body), { colourKey: { '#111111': 'paint' }, mode: 'stacked' }).parts).toHaveLength(2);
  });
});

describe('one rule for the outlines of one path, stacked or spread', () => {
  const same = rect(10, 10, 200, 150) + rect(40, 40, 50, 20);

  it.each(['stacked', 'spread'] as const)(
    '%s: an inner outline of the same direction does nothing in a fill, and is told',
    (mode) => {
      const sign = signOf(page(`<path id="p" fill="#224466" d="${same}"/>`), { mode });
      expect(sign.parts.map((part) => part.shape.holes.length)).toEqual([0]);
      expect(told(sign, 'inner-outline-idle')).toMatch(/^warning: .*evenodd/);
      const even = signOf(page(`<path id="p" fill="#224466" fill-rule="evenodd" d="${same}"/>`), { mode });
      expect(even.parts.map((part) => part.shape.holes.length)).toEqual([1]);
      expect(codes(even)).not.toContain('inner-outline-idle');
    },
  );

  it.each(['stacked', 'spread'] as const)('%s: bare lines are all cut, so that an inner outline is a hole', (mode) => {
    const sign = signOf(page(`<path id="p" ${LINE} d="${same}"/>`), { mode });
    expect(sign.parts.map((part) => part.shape.holes.length)).toEqual([1]);
  });

  it.each([
    ['stacked', LINE],
    ['spread', LINE],
    ['stacked', 'fill="#224466"'],
    ['spread', 'fill="#224466"'],
  ] as const)('%s, %s: letters of a script that overlap are one part, told', (mode, look) => {
    const script = rect(10, 50, 60, 20) + rect(60, 40, 60, 20) + rect(110, 50, 60, 20);
    const sign = signOf(page(`<path id="word" ${look} d="${script}"/>`), { mode });
    expect(sign.parts.map(({ id }) => id)).toEqual(['word']);
    expect(told(sign, 'crossing-outline')).toMatch(/^warning/);
  });
});

describe('pictures of signs', () => {
  it('a cut line over its own fill makes one part, told, with the fill as paint', () => {
    const shapes = [
      ['backer', '#224466', rect(10, 10, 300, 200)],
      ['sail', '#ffcc00', sail(100, 100)],
    ].map(([id, fill, d]) => `<path id="${id}" fill="${fill}" d="${d}"/><path ${LINE} d="${d}"/>`);
    const sign = signOf(page(shapes.join('')));
    expect(sign.parts.map(({ id, paint }) => [id, paint])).toEqual([
      ['backer', '#224466'],
      ['sail', '#ffcc00'],
    ]);
    expect(told(sign, 'line-on-fill')).toMatch(/2 cut lines/);
  });

  it('a white page below is no part, told, and can be kept', () => {
    const drawn = page(
      `<rect width="600" height="300" fill="#ffffff"/><path id="backer" fill="#224466" d="${rect(10, 10, 300, 200)}"/><path id="sail" fill="#ffcc00" d="${sail(100, 100)}"/>`,
    );
    const sign = signOf(drawn);
    expect(sign.parts.map(({ id }) => id)).toEqual(['backer', 'sail']);
    expect(told(sign, 'background')).toMatch(/^warning: .*--keep-background/);
    expect(signOf(drawn, { keepBackground: true }).parts).toHaveLength(3);
    expect(signOf(drawn, { colourKey: { '#ffffff': 'paint' } }).parts).toHaveLength(3);
    expect(signOf(drawn.replace('<rect ', '<rect id="plate" ')).parts).toHaveLength(3);
  });
});

describe('what is lost', () => {
  const plate = `<path id="plate" ${LINE} d="${rect(10, 10, 200, 150)}"/>`;
  const planned = (body: string): Sign => {
    const job = jobFrom({ bed: '900x900', boards: ['900x900'] }, 'a.json');
    const sign = signStage(readArtwork(page(body), { name: 'pier.svg' }), job);
    assertUsable(sign, job);
    return sign;
  };

  it('of a path that breaks off, or is flattened to a line, has to be accepted', () => {
    expect(planned(plate).parts).toHaveLength(1);
    expect(() => planned(`${plate}<path ${LINE} d="M NaN 0L5 5"/>`)).toThrow(
      /nothing of it could be kept.*--accept-faults/,
    );
    expect(() => planned(`${plate}<path ${LINE} transform="scale(1 0)" d="${rect(20, 20, 30, 30)}"/>`)).toThrow(
      /--accept-faults/,
    );
  });

  it('is named where nothing else is left', () => {
    expect(() => planned('<text x="10" y="20">Pier</text>')).toThrow(
      /no closed shape.*text has no outlines without its font/,
    );
  });
});
