import { contourArea } from '@underlap/geometry/contour';
import { expect, it } from 'vitest';
import { readSvg } from './read-svg.ts';

/*
 * Long path data is taken from the file's text as it stands where that is the attribute's value, and from the parser where
 * references or line ends make it another: both must read the same.
 */

const COUNT = 30_000;
const steps = Array.from({ length: COUNT }, (_, i) => `${(i % 7) - 3} ${(i % 5) - 2}`);

function lengthAndArea(attributes: string, before = ''): readonly [number, number] {
  const body = `<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm">${before}<path ${attributes}/></svg>`;
  const { shapes, complaints } = readSvg(body, { name: 'a.svg', repair: false });
  expect(complaints.filter(({ severity }) => severity !== 'note').map(({ code }) => code)).not.toContain(
    'broken-shape',
  );
  const contour = shapes.at(-1)!.contours[0]!;
  return [contour.segments.length, contourArea(contour)];
}

const expected = lengthAndArea(`d="M9 9${steps.map((step) => `l${step}`).join('')}z"`);

it.each([
  ['line feeds', (data: string) => `d="${data.replaceAll('l', '\nl')}"`],
  ['carriage returns', (data: string) => `d="${data.replaceAll('l', '\r\nl')}"`],
  ['tabs', (data: string) => `d="${data.replaceAll(' ', '\t')}"`],
  ['single quotes', (data: string) => `d='${data}'`],
  ['spaces round the sign', (data: string) => `d  =  "${data}" id="a"`],
  ['other attributes', (data: string) => `id='"' d="${data}" class='b"c'`],
  ['references', (data: string) => `d="${data.replaceAll('l-3', '&#108;-3')}"`],
  ['a reference at the end', (data: string) => `d="${data.slice(0, -1)}&#122;"`],
])('reads long path data with %s', (_, attributes) => {
  const data = `M9 9${steps.map((step) => `l${step}`).join('')}z`;
  expect(lengthAndArea(attributes(data))).toEqual(expected);
});

it('finds long path data behind letters of several units, a byte-order mark and long comments', () => {
  const data = `d="M9 9${steps.map((step) => `l${step}`).join('')}z"`;
  expect(lengthAndArea(data, `<!-- ${'\u{1F6A2}é '.repeat(40_000)} --><desc>\u{1F6A2}</desc>\r\n`)).toEqual(expected);
  const marked = readSvg(
    `\uFEFF<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm"><path ${data}/></svg>`,
    {
      name: 'a.svg',
      repair: false,
    },
  );
  expect(marked.shapes[0]!.contours[0]!.segments.length).toBe(expected[0]);
});

it('reads long lists of points alike', () => {
  const points = Array.from({ length: 4000 }, (_, i) => `${i % 60},${(i * 7) % 50}`);
  const read = (separator: string) =>
    readSvg(
      `<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm"><polygon points="${points.join(separator)}"/></svg>`,
      { name: 'a.svg', repair: false },
    );
  const area = (separator: string) => contourArea(read(separator).shapes[0]!.contours[0]!);
  expect(area('\n')).toBe(area(' '));
  expect(area('\r\n\t')).toBe(area(' '));
});
