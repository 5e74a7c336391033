import { contourBounds } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { readSvg } from './read-svg.ts';

const read = (body: string) =>
  readSvg(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${body}</svg>`, {
    name: 'quay.svg',
  });
/** Ids of the shapes that a rule paints red, out of a row of eight. */
function painted(selector: string, row?: string): string {
  const shapes =
    row ?? Array.from({ length: 8 }, (_, i) => `<rect id="${i + 1}" x="${10 * i}" width="9" height="9"/>`).join('');
  const drawing = read(`<style>${selector}{fill:red}</style><g>${shapes}</g>`);
  expect(drawing.complaints.map(({ code }) => code)).not.toContain('style-sheet');
  return drawing.shapes
    .filter(({ fill }) => fill === '#ff0000')
    .map(({ id }) => id)
    .join('');
}
const fills = (body: string) => read(body).shapes.map(({ fill }) => fill);
const box = (body: string): string => {
  const { minX, minY, maxX, maxY } = contourBounds(read(body).shapes[0]!.contours[0]!);
  return [minX, minY, maxX, maxY].map((value) => Number(value.toFixed(6))).join(' ');
};

describe('places among siblings (Selectors Level 4)', () => {
  it.each([
    ['rect:first-child', '1'],
    ['rect:last-child', '8'],
    ['rect:nth-child(3)', '3'],
    ['rect:nth-child(odd)', '1357'],
    ['rect:nth-child(even)', '2468'],
    ['rect:nth-child(3n+2)', '258'],
    ['rect:nth-child(-n+3)', '123'],
    ['rect:nth-child(n+7)', '78'],
    ['rect:nth-child(0n+4)', '4'],
    ['rect:nth-last-child(-n+2)', '78'],
    ['rect:not(:nth-child(odd))', '2468'],
    ['rect:not(:first-child):not(:last-child)', '234567'],
  ])('%s paints %s', (selector, ids) => {
    expect(painted(selector)).toBe(ids);
  });

  it('counts elements of one type by themselves', () => {
    const row = `<circle id="a" r="5"/><rect id="b" width="5" height="5"/><circle id="c" r="6" cx="30"/><rect id="d" x="50" width="5" height="5"/><path id="e" d="M70 0h5v5z"/>`;
    expect(painted('rect:nth-of-type(2)', row)).toBe('d');
    expect(painted('g > :first-of-type', row)).toBe('abe');
    expect(painted('g > :last-of-type', row)).toBe('cde');
    expect(painted('g > :only-of-type', row)).toBe('e');
    expect(painted('circle:nth-last-of-type(2)', row)).toBe('a');
  });

  it('tells of `of S`, which is not followed', () => {
    const drawing = read('<style>rect:nth-child(2 of .a){fill:red}</style><rect width="5" height="5"/>');
    expect(drawing.complaints.map(({ code }) => code)).toContain('style-sheet');
  });
});

describe('custom properties (CSS Custom Properties Level 1)', () => {
  const rect = (attributes = '') => `<rect width="5" height="5" ${attributes}/>`;

  it('are inherited, replaced where an element sets its own, and may refer to others', () => {
    const css = '<style>svg{--deep:#0000ff;--hull:var(--deep)} rect{fill:var(--hull)} .b{--hull:lime}</style>';
    expect(fills(`${css}${rect()}${rect('class="b" x="20"')}${rect('style="--hull:#ff0000" x="40"')}`)).toEqual([
      '#0000ff',
      '#00ff00',
      '#ff0000',
    ]);
  });

  it('fall back, also to a value with commas and to another property', () => {
    expect(fills(`<style>rect{fill:var(--none, rgb(255, 0, 0))}</style>${rect()}`)).toEqual(['#ff0000']);
    expect(fills(`<style>rect{--b:lime;fill:var(--none, var(--b))}</style>${rect()}`)).toEqual(['#00ff00']);
    expect(fills(rect('fill="var(--none, blue)"'))).toEqual(['#0000ff']);
  });

  it('count as unset, and are told, where they lead nowhere or round in a circle', () => {
    const drawing = read(
      `<style>rect{fill:lime;--a:var(--b);--b:var(--a)} #x{fill:var(--a)}</style><g fill="red">${rect('id="x"')}</g>`,
    );
    expect(drawing.shapes[0]!.fill).toBe('#ff0000');
    expect(drawing.complaints.map(({ code }) => code)).toContain('bad-style');
  });

  it('cannot be multiplied without end', () => {
    const chain = Array.from({ length: 30 }, (_, i) => `--a${i}:var(--a${i + 1})var(--a${i + 1})`).join(';');
    expect(fills(`<style>rect{${chain};--a30: ;fill:var(--a0)}</style>${rect()}`)).toEqual(['#000000']);
  });
});

describe('transform-origin and transform-box (CSS Transforms Level 1)', () => {
  // A rectangle of 20 x 10 at 30, 20, turned by a quarter.
  const turned = (css: string) =>
    box(`<style>rect{transform:rotate(90deg);${css}}</style><rect x="30" y="20" width="20" height="10"/>`);

  it.each([
    // About its middle 40, 25: 10 wide, 20 high.
    ['transform-box:fill-box;transform-origin:center', '35 15 45 35'],
    ['transform-box:fill-box;transform-origin:50% 50%', '35 15 45 35'],
    // About its corner 30, 20: (x, y) goes to (30 - (y - 20), 20 + (x - 30)).
    ['transform-box:fill-box;transform-origin:left top', '20 20 30 40'],
    ['transform-box:fill-box;transform-origin:top left', '20 20 30 40'],
    ['transform-box:fill-box;transform-origin:0 0', '20 20 30 40'],
    // About its corner 50, 30: (50 - (y - 30), 30 + (x - 50)).
    ['transform-box:fill-box;transform-origin:right bottom', '50 10 60 30'],
    ['transform-box:fill-box;transform-origin:bottom right 3px', '50 10 60 30'],
    // About the middle of its upper side, 40, 20: (40 - (y - 20), 20 + (x - 40)).
    ['transform-box:fill-box;transform-origin:top', '30 10 40 30'],
    // About the middle of the viewport, 50, 50: (50 - (y - 50), 50 + (x - 50)).
    ['transform-origin:center', '70 30 80 50'],
    ['transform-box:view-box;transform-origin:50% 50%', '70 30 80 50'],
    // About 0, 0 where nothing is said: (-y, x).
    ['', '-30 30 -20 50'],
    ['transform-origin:40px 25px', '35 15 45 35'],
  ])('%s', (css, expected) => {
    expect(turned(css)).toBe(expected);
  });

  it('turns a group about the box of all it holds, its own moves included', () => {
    // 0 to 20 by 0 to 10 and, moved, 30 to 40 by 0 to 10: the middle is 20, 5. A half turn sends 0 to 20 to 20 to 40.
    const css = '<style>g.turn{transform-box:fill-box;transform-origin:center;transform:rotate(180deg)}</style>';
    const body = '<rect width="20" height="10"/><g transform="translate(30)"><rect width="10" height="10"/></g>';
    expect(box(`${css}<g class="turn">${body}</g>`)).toBe('20 0 40 10');
  });

  it('tells of a box that it cannot find, and stays quick however deep such groups are nested', () => {
    expect(
      read('<rect width="5" height="5" style="transform:scale(2);transform-box:stroke-box;transform-origin:center"/>')
        .complaints,
    ).toMatchObject([{ code: 'transform-origin' }]);
    const deep = '<g class="turn">'.repeat(2000);
    const css = '<style>.turn{transform-box:fill-box;transform-origin:center;transform:rotate(1deg)}</style>';
    expect(read(`${css}${deep}<rect width="5" height="5"/>${'</g>'.repeat(2000)}`).shapes).toHaveLength(1);
  });
});
