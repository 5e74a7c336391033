import { describe, expect, it } from 'vitest';
import { inspected, summary } from '../support/inspected.ts';

/*
 * Drawings in the manner of many programs, read as a whole. Every expected figure is worked out by hand beside its case, from
 * the shapes' own measures and the rules of SVG 2 and CSS Values (1 in = 25.4 mm = 96 px = 72 pt = 6 pc).
 */

interface Case {
  readonly name: string;
  readonly svg: string;
  readonly size: string;
  readonly parts: readonly string[];
  readonly mode?: 'stacked' | 'spread';
  readonly marks?: readonly string[];
  readonly told?: readonly string[];
}

const NS = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:x="urn:x"';
const svg = (attributes: string, body: string): string => `<svg ${NS} ${attributes}>${body}</svg>`;
/** 100 x 50 mm, one unit a mm. */
const page = (body: string): string => svg('width="100mm" height="50mm" viewBox="0 0 100 50"', body);
const PI = Math.PI;
const round = (value: number): number => Number(value.toFixed(2));

const CASES: readonly Case[] = [
  {
    name: 'inches; a unit is 25.4 / 72 mm',
    // 4 in = 101.6 mm over 288 units; a square of 72 units is 1 in2 = 645.16 mm2.
    svg: svg('width="4in" height="2in" viewBox="0 0 288 144"', '<rect id="a" width="72" height="72"/>'),
    size: '101.6 x 50.8',
    parts: ['a 645.16'],
  },
  {
    name: 'points without a viewBox; lengths in px',
    // 720 pt = 10 in; a user unit is a px: 96 x 48 px = 1 x 0.5 in = 322.58 mm2.
    svg: svg('width="720pt" height="360pt"', '<rect id="a" width="96" height="48"/>'),
    size: '254 x 127',
    parts: ['a 322.58'],
  },
  {
    name: 'picas and a viewBox with an offset',
    // 12 pc = 2 in = 50.8 mm over 100 units: 0.508 mm a unit; 10 x 10 units = 25.81 mm2.
    svg: svg(
      'width="12pc" height="12pc" viewBox="-50 -50 100 100"',
      '<rect id="a" x="-50" y="-50" width="10" height="10"/>',
    ),
    size: '50.8 x 50.8',
    parts: [`a ${round(5.08 * 5.08)}`],
  },
  {
    name: 'centimetres and lengths in many units',
    // A viewBox of 378 px stands for 10 cm = 377.953 px: a px is nearly a px; here 1000 units for 100 mm: 0.1 mm a unit.
    // in: 96 units = 9.6 mm; mm: 3.7795 units = 0.37795 mm.
    svg: svg('width="10cm" height="5cm" viewBox="0 0 1000 500"', '<rect id="a" width="1in" height="10mm"/>'),
    size: '100 x 50',
    parts: [`a ${round(9.6 * ((10 * 96) / 25.4 / 10))}`],
  },
  {
    name: 'percentages of the viewport',
    // 50 % of 100 by 20 % of 50; the circle's r is 10 % of the diagonal over root 2: sqrt((100^2 + 50^2) / 2) / 10 = 7.9057.
    svg: page('<rect id="a" width="50%" height="20%" fill="#123456"/><circle id="b" cx="80%" cy="60%" r="10%"/>'),
    size: '100 x 50',
    mode: 'spread',
    parts: ['a 500', `b ${round(PI * 62.5)}`],
  },
  {
    name: 'a viewBox alone leaves the size open',
    // 480 units are 127 mm at 96 to the inch and 169.333 at 72.
    svg: svg('viewBox="0 0 480 240"', '<rect id="a" width="10" height="10"/>'),
    size: '127 at 96 or 169.333 at 72',
    parts: ['a open'],
  },
  {
    name: 'width and height of 100 %',
    svg: svg('width="100%" height="100%" viewBox="0 0 480 240"', '<rect id="a" width="10" height="10"/>'),
    size: '127 at 96 or 169.333 at 72',
    parts: ['a open'],
  },
  {
    name: 'preserveAspectRatio none stretches, slice covers',
    // none: 2 by 1; a circle of r 5 becomes an ellipse of 10 by 5.
    svg: svg(
      'width="100mm" height="50mm" viewBox="0 0 50 50" preserveAspectRatio="none"',
      '<circle id="a" cx="25" cy="25" r="5"/>',
    ),
    size: '100 x 50',
    parts: [`a ${round(PI * 50)}`],
  },
  {
    name: 'a nested svg with a viewBox of its own',
    // 40 x 40 for 20 units, meet: scale 2 (the box is 40 x 50, so min(2, 2.5)).
    svg: page(
      '<svg x="10" y="0" width="40" height="50" viewBox="5 5 20 20"><rect id="a" x="5" y="5" width="10" height="10"/></svg>',
    ),
    size: '100 x 50',
    parts: ['a 400'],
  },
  {
    name: 'use of a symbol with its own width and height',
    // A viewBox of 10 in 30 x 20, meet: scale 2; a 5 x 5 square becomes 10 x 10.
    svg: page(
      '<symbol id="s" viewBox="0 0 10 10"><rect width="5" height="5"/></symbol><use id="u" xlink:href="#s" x="3" width="30" height="20"/>',
    ),
    size: '100 x 50',
    parts: ['s 100'],
  },
  {
    name: 'use inherits fill and is moved by x, y after its transform',
    svg: page('<defs><circle id="c" r="5"/></defs><use href="#c" transform="scale(2)" x="20" y="12" fill="#ff0000"/>'),
    size: '100 x 50',
    parts: [`c ${round(PI * 100)}`],
  },
  {
    name: 'classes, !important and a style attribute',
    // .k says none, but the important rule paints it; the style attribute loses to !important.
    svg: page(
      '<style>.k{fill:none;stroke:none} #a{fill:#00ff00 !important}</style><rect id="a" class="k" style="fill:none" width="10" height="10"/>',
    ),
    size: '100 x 50',
    parts: ['a 100'],
  },
  {
    name: 'stroke only, holes as elements of their own',
    // 40 x 40 less 10 x 10.
    svg: page(
      '<g fill="none" stroke="#000"><rect id="a" width="40" height="40"/><rect x="10" y="10" width="10" height="10"/></g>',
    ),
    size: '100 x 50',
    mode: 'spread',
    parts: ['a 1500 holes 1'],
    told: ['holes'],
  },
  {
    name: 'a skewed matrix keeps its determinant',
    // |1 * 2 - 0.5 * 0.25| = 1.875 times 100.
    svg: page('<g transform="matrix(1 .5 .25 2 10 10)"><rect id="a" width="10" height="10"/></g>'),
    size: '100 x 50',
    parts: ['a 187.5'],
  },
  {
    name: 'a mirrored layer keeps holes as holes',
    // 20 x 20 less 10 x 10.
    svg: page('<g transform="translate(90) scale(-1,1)"><path id="a" d="M0 0H20V20H0ZM5 5V15H15V5Z"/></g>'),
    size: '100 x 50',
    parts: ['a 300 holes 1'],
  },
  {
    name: 'a shape is cut to a clip that is a circle: pi 25',
    svg: page(
      '<clipPath id="k"><circle cx="10" cy="10" r="5"/></clipPath><g clip-path="url(#k)"><rect id="a" width="20" height="20"/></g>',
    ),
    size: '100 x 50',
    parts: ['a 78.54'],
    told: ['clipped'],
  },
  {
    name: 'text and a bitmap are told',
    svg: page(
      '<text x="1" y="5">Gull</text><image width="9" height="9" xlink:href="data:image/png;base64,AAAA"/><rect id="a" width="9" height="9"/>',
    ),
    size: '100 x 50',
    parts: ['a 81'],
    told: ['bitmap', 'text'],
  },
  {
    name: 'layers named by an attribute of another namespace',
    svg: page(
      '<g id="layer1" x:groupmode="layer" x:label="Sails"><rect id="rect12" x:label="Main sail" width="10" height="10"/></g>',
    ),
    size: '100 x 50',
    parts: ['Main sail 100'],
  },
  {
    name: 'a line drawn twice is cut once',
    svg: page('<g fill="none" stroke="red"><rect id="a" width="10" height="10"/><path d="M10 10H0V0H10Z"/></g>'),
    size: '100 x 50',
    parts: ['a 100'],
    told: ['removed-double'],
  },
  {
    name: 'an open contour that should be cut is told, the part kept',
    svg: page('<g fill="none" stroke="red"><rect id="a" width="10" height="10"/><path d="M30 0H40V10"/></g>'),
    size: '100 x 50',
    parts: ['a 100'],
    told: ['open-cut'],
  },
  {
    name: 'a gap of 0.05 mm is closed, one of 1 mm is told',
    svg: page('<g fill="none" stroke="red"><path id="a" d="M0 0H20V20H0V.05"/><path id="b" d="M30 0H50V20H30V1"/></g>'),
    size: '100 x 50',
    parts: ['a 400'],
    told: ['closed-gap', 'nearly-closed', 'open-cut'],
  },
  {
    name: 'a bow tie is two triangles by either rule',
    // Two triangles of 20 x 10 / 2 each.
    svg: page('<path id="a" d="M0 0L20 20V0L0 20Z"/>'),
    size: '100 x 50',
    parts: ['a 100', 'a 100'],
    told: ['crossing-outline', 'resolved-self-crossing'],
  },
  {
    name: 'compact flags and numbers',
    // A half disc of r 5 twice: a whole one.
    svg: page('<path id="a" d="M10 5a5 5 0 11-10 0 5 5 0 0110 0z"/>'),
    size: '100 x 50',
    parts: [`a ${round(PI * 25)}`],
  },
  {
    name: 'paint by rgb(), hsl(), names and currentColor',
    svg: page(
      '<g color="teal"><rect id="a" width="9" height="9" fill="currentColor"/><rect id="b" x="20" width="9" height="9" fill="rgb(100%,0%,0%)"/><rect id="c" x="40" width="9" height="9" style="fill:hsl(120,100%,50%)"/></g>',
    ),
    size: '100 x 50',
    mode: 'spread',
    parts: ['a 81', 'b 81', 'c 81'],
  },
  {
    name: 'hidden things are left out and told',
    svg: page(
      '<g display="none"><rect width="5" height="5"/></g><g visibility="hidden"><rect width="6" height="6"/><rect id="a" visibility="visible" width="7" height="7"/></g>',
    ),
    size: '100 x 50',
    parts: ['a 49'],
    told: ['hidden'],
  },
  {
    name: 'the transform-origin in the middle of the box',
    // A quarter turn of 20 x 10 about its own middle: 10 x 20 round the same point, area 200.
    svg: page(
      '<style>rect{transform-box:fill-box;transform-origin:center;transform:rotate(90deg)}</style><rect id="a" x="30" y="20" width="20" height="10"/>',
    ),
    size: '100 x 50',
    parts: ['a 200'],
  },
  {
    name: 'a sign of 16 mm that was meant as 16 in is doubted',
    svg: svg('width="1.6mm" height="0.8mm" viewBox="0 0 1600 800"', '<rect id="a" width="1600" height="800"/>'),
    size: '1.6 x 0.8',
    parts: ['a 1.28'],
    told: ['unlikely-size'],
  },
];

describe('odd SVG drawings', () => {
  it.each(CASES)('$name', ({ svg: text, size, parts, mode = 'spread', marks = [], told = [] }) => {
    const seen = summary(inspected(text));
    expect(seen).toEqual({ size, mode: mode, parts, marks, told });
  });
});
