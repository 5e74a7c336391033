import seedrandom from 'seedrandom';
import { dxfText, type Groups, lightPolyline, line } from '../../packages/artwork/testing/dxf-text.ts';

/** A drawing of any number of segments, the same every time. */
export interface LargeDrawing {
  readonly name: string;
  /** Segments of a file of about ten megabytes. */
  readonly segments: number;
  /** Is it read within ten times the file? Where not, the design pages say why. */
  readonly isLight: boolean;
  make(segments: number): string;
}

const fixed = (value: number): string => value.toFixed(6);

function page(body: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="400mm" viewBox="0 0 600 400">${body}</svg>`;
}

/** One path of curves with all the digits that a program can write: 200 characters to a segment. */
function longPath(segments: number): string {
  const random = seedrandom('long');
  const curve = (): string =>
    Array.from({ length: 6 }, () => `${((random() - 0.5) * 4).toFixed(17)}${'0'.repeat(10)}`).join(' , ');
  return page(`<path d="M300 200 ${Array.from({ length: segments }, () => `c ${curve()} `).join('\n')}"/>`);
}

const STYLE =
  'fill:none;stroke:#b5179e;stroke-width:0.1;stroke-linecap:round;stroke-linejoin:miter;stroke-miterlimit:4;stroke-opacity:1';

/** An element to a line, styled as many programs do: 215 characters to a segment. */
function styledLines(segments: number): string {
  const lines = Array.from({ length: segments }, (_, i) => {
    const [x, y] = [(i % 250) * 2.3, Math.floor(i / 250) * 1.7];
    return `<line id="line-${i}" x1="${fixed(x)}" y1="${fixed(y)}" x2="${fixed(x + 1.9)}" y2="${fixed(y + 1.1)}" style="${STYLE}"/>`;
  });
  return page(lines.join('\n'));
}

/** A rectangle in two groups with styles and moves of their own: 860 characters to four segments. */
function styledGroups(segments: number): string {
  const style = `${STYLE.replace('none', '#123456')};opacity:1;paint-order:normal;stroke-dasharray:none;stroke-dashoffset:0;marker:none;visibility:visible;display:inline;overflow:visible;enable-background:accumulate;font-variant:normal`;
  const groups = Array.from({ length: segments / 4 }, (_, i) => {
    const move = `translate(${fixed((i % 125) * 4.3)} ${fixed(Math.floor(i / 125) * 3.7)})`;
    return `<g id="g${i}" transform="${move}" style="${style}"><g id="h${i}" style="${style}"><rect id="rect${i}" x="0.1234567" y="0.2345678" width="3.123456" height="2.123456"/></g></g>`;
  });
  return page(groups.join('\n'));
}

/** Wavy closed outlines of 50 curves each, one element per outline: 60 characters to a segment. */
function outlines(segments: number): string {
  const random = seedrandom('outlines');
  const parts = Array.from({ length: segments / 50 }, (_, i) => {
    let data = `M${fixed(random() * 550)},${fixed(random() * 350)}`;
    for (let k = 0; k < 49; k++) {
      const curve = Array.from({ length: 6 }, () => fixed((random() - 0.5) * 8));
      data += ` c ${curve[0]},${curve[1]} ${curve[2]},${curve[3]} ${curve[4]},${curve[5]}`;
    }
    const style = `style="fill:#${(i * 7919).toString(16).padStart(6, '0').slice(-6)};stroke:none;fill-rule:evenodd"`;
    return `<g id="layer-${i}" transform="translate(0.5,0.25) rotate(${i % 360} 300 200)"><path ${style} id="wave-${i}" d="${data} z"/></g>`;
  });
  return page(`<style>.a{fill:red} g path{stroke-width:0.2}</style>${parts.join('\n')}`);
}

/** An element to an outline of ten curves with all their digits: 200 characters to a segment. */
function manyPaths(segments: number): string {
  const random = seedrandom('many');
  const curve = (): string =>
    Array.from({ length: 6 }, () => `${((random() - 0.5) * 5).toFixed(17)}${'0'.repeat(10)}`).join(' , ');
  const paths = Array.from({ length: segments / 10 }, (_, i) => {
    const start = `M ${fixed(50 + random() * 500)},${fixed(50 + random() * 300)}`;
    const curves = Array.from({ length: 10 }, () => `c ${curve()}`).join(' ');
    return `<path id="path${i}" style="fill:none;stroke:#000000" d="${start} ${curves} z"/>`;
  });
  return page(paths.join('\n'));
}

/** Groups within groups, each with a style, a move and one triangle: 150 characters to a segment. */
function deepGroups(segments: number): string {
  const depth = segments / 3;
  const open = Array.from({ length: depth }, (_, i) => {
    const data = `M0 0l${(i % 50) + 1} 0 0 ${(i % 70) + 1}z`;
    return `<g id="deep${i}" style="${STYLE};${STYLE};${STYLE}" transform="translate(0.001,0.001)"><path d="${data}"/>`;
  });
  return page(`${open.join('')}${'</g>'.repeat(depth)}`);
}

/** One path of curves as compact as they can be written: 26 characters to a segment. */
function compactPath(segments: number): string {
  const random = seedrandom('compact');
  const number = (): string => ((random() - 0.5) * 3).toFixed(2).replace(/^(-?)0\./, '$1.');
  const curve = (): string => Array.from({ length: 6 }, number).join(' ').replaceAll(' -', '-');
  return page(`<path d="M300 200${Array.from({ length: segments }, () => `c${curve()}`).join('')}z"/>`);
}

/** One path of short lines: the densest text there is, 13 characters to a segment. */
function densePath(segments: number): string {
  const random = seedrandom('path');
  const step = (): string => ((random() - 0.5) * 4).toFixed(3);
  return page(`<path d="M300 200${Array.from({ length: segments }, () => `l${step()} ${step()}`).join('')}"/>`);
}

/** Loose lines that come round by fours: 58 characters to a segment. */
function looseLines(segments: number): string {
  const lines: string[] = [];
  for (let i = 0; i < segments / 4; i++) {
    const [x, y] = [(i % 200) * 3, Math.floor(i / 200) * 3];
    const corners = [x, y, x + 2, y, x + 2, y + 2, x, y + 2, x, y];
    for (let k = 0; k < 8; k += 2) {
      const [x1, y1, x2, y2] = corners.slice(k, k + 4);
      lines.push(`<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" stroke="#b5179e"/>`);
    }
  }
  return page(lines.join(''));
}

const DXF_HEAD = '0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n';
const DXF_TAIL = '0\nENDSEC\n0\nEOF\n';

/** DXF lines that meet nowhere, with handles, markers and all digits as current programs write them: 183 characters each. */
function dxfLines(segments: number): string {
  const random = seedrandom('lines');
  const place = (): number => random() * 800;
  const lines = Array.from({ length: segments }, (_, i) => {
    const head = `  0\nLINE\n  5\n${(i + 256).toString(16).toUpperCase()}\n330\n1F\n100\nAcDbEntity\n  8\nCut lines\n 62\n     1\n`;
    return `${head}100\nAcDbLine\n 10\n${place()}\n 20\n${place()}\n 30\n0.0\n 11\n${place()}\n 21\n${place()}\n 31\n0.0\n`;
  });
  return `${DXF_HEAD}${lines.join('')}${DXF_TAIL}`;
}

/** The same in the oldest form with four decimals, 72 characters each: the shape that is made of a line is six times its text. */
function shortDxfLines(segments: number): string {
  const random = seedrandom('short');
  const place = (): string => (random() * 800).toFixed(4);
  const lines = Array.from(
    { length: segments },
    () => `0\nLINE\n8\n0\n10\n${place()}\n20\n${place()}\n30\n0.0\n11\n${place()}\n21\n${place()}\n31\n0.0\n`,
  );
  return `${DXF_HEAD}${lines.join('')}${DXF_TAIL}`;
}

/** DXF squares of four lines with four decimals, 72 characters to a line. */
function dxfSquares(segments: number): string {
  const squares = Array.from({ length: segments / 4 }, (_, i) => {
    const [x, y] = [(i % 200) * 3, Math.floor(i / 200) * 3];
    const corners = [x, y, x + 2, y, x + 2, y + 2, x, y + 2, x, y].map((value) => value.toFixed(4));
    const side = (k: number): string =>
      `0\nLINE\n8\n0\n10\n${corners[k]}\n20\n${corners[k + 1]}\n30\n0.0\n11\n${corners[k + 2]}\n21\n${corners[k + 3]}\n31\n0.0\n`;
    return [0, 2, 4, 6].map(side).join('');
  });
  return `${DXF_HEAD}${squares.join('')}${DXF_TAIL}`;
}

/** DXF squares of four loose lines in shuffled order: what has to be joined is far apart in the file. 48 characters to a line. */
function looseSquares(segments: number): string {
  const random = seedrandom('squares');
  const lines: Groups[] = [];
  const side = Math.ceil(Math.sqrt(segments / 4));
  for (let i = 0; i < segments / 4; i++) {
    const [x, y] = [(i % side) * 3, Math.floor(i / side) * 3];
    lines.push(line(x, y, x + 2, y, 'cut'), line(x + 2, y, x + 2, y + 2, 'cut'));
    lines.push(line(x + 2, y + 2, x, y + 2, 'cut'), line(x, y + 2, x, y, 'cut'));
  }
  for (let i = lines.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [lines[i], lines[j]] = [lines[j]!, lines[i]!];
  }
  return dxfText({ header: { $INSUNITS: 4 }, entities: lines.flat() });
}

/** DXF polylines of a hundred bulges each. */
function polylines(segments: number): string {
  const random = seedrandom('polylines');
  const groups = Array.from({ length: segments / 100 }, (_, i) => {
    const [x, y] = [(i % 40) * 15, Math.floor(i / 40) * 15];
    const points = Array.from({ length: 100 }, (_, k) => {
      const turn = (k * Math.PI) / 50;
      const reach = 5 + random();
      const place = [x + reach * Math.cos(turn), y + reach * Math.sin(turn)].map((value) => Number(value.toFixed(6)));
      return [...place, Number((0.1 * random()).toFixed(6))];
    });
    return lightPolyline(points, true, 'cut');
  });
  return dxfText({ header: { $INSUNITS: 4 }, entities: groups.flat() });
}

/** Drawings as makers' programs write them, and dense ones. */
export const LARGE_DRAWINGS: readonly LargeDrawing[] = [
  { name: 'long path', segments: 50_000, isLight: true, make: longPath },
  { name: 'many paths', segments: 50_000, isLight: true, make: manyPaths },
  { name: 'styled lines', segments: 50_000, isLight: true, make: styledLines },
  { name: 'styled groups', segments: 50_000, isLight: true, make: styledGroups },
  { name: 'deep groups', segments: 60_000, isLight: true, make: deepGroups },
  { name: 'outlines', segments: 160_000, isLight: true, make: outlines },
  { name: 'compact path', segments: 370_000, isLight: true, make: compactPath },
  { name: 'dense path', segments: 800_000, isLight: true, make: densePath },
  { name: 'loose lines', segments: 160_000, isLight: false, make: looseLines },
  { name: 'DXF polylines', segments: 240_000, isLight: true, make: polylines },
  { name: 'DXF lines', segments: 54_000, isLight: true, make: dxfLines },
  { name: 'DXF squares', segments: 136_000, isLight: true, make: dxfSquares },
  { name: 'loose squares', segments: 208_000, isLight: false, make: looseSquares },
  { name: 'short lines', segments: 138_000, isLight: false, make: shortDxfLines },
];
