import { readPath } from '@underlap/artwork/path-grammar';
import { plainContour } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import { SVGPathData } from 'svg-pathdata';
import { describe, expect, it } from 'vitest';
import { iconCorpus } from '../support/icon-corpus.ts';

/**
 * Path commands one by one against another parser: svg-pathdata 7.2, made absolute, without H, V, S, Q and T, by its own
 * transformations. Every end and control point has to agree.
 */
const PATHS = iconCorpus()
  .filter((_, index) => index % 3 === 0)
  .flatMap((file) =>
    [...file.read().matchAll(/\sd="([^"]+)"/g)].map((match) => ({ name: file.name, data: match[1]! })),
  );

/**
 * The library makes a line of a straight curve before it reflects that curve's control point for the smooth curve after it,
 * so the reflection is lost; the standard reflects.
 */
const EXCEPTIONS: readonly string[] = ['svg/pasta.svg'];

/** Kind and coordinates of a drawn command. */
type Drawn = readonly [kind: 'line' | 'cubic' | 'arc', ...numbers: number[]];

function theirs(data: string): Drawn[] {
  const { commands } = new SVGPathData(data).toAbs().normalizeHVZ(false).normalizeST().qtToC();
  let from: Point = { x: 0, y: 0 };
  let start = from;
  return commands.flatMap((command): Drawn[] => {
    const at = from;
    if (command.type === SVGPathData.CLOSE_PATH) {
      from = start;
      return [];
    }
    if (!('x' in command) || !('y' in command)) throw new Error('a command was not made absolute');
    from = { x: command.x, y: command.y };
    switch (command.type) {
      case SVGPathData.MOVE_TO:
        start = from;
        return [];
      case SVGPathData.LINE_TO:
        return [['line', from.x, from.y]];
      case SVGPathData.CURVE_TO:
        return [cubic(at, { x: command.x1, y: command.y1 }, { x: command.x2, y: command.y2 }, from)];
      default:
        return [['arc', from.x, from.y]];
    }
  });
}

function ours(data: string): Drawn[] {
  return readPath(data, 1e6)
    .contours.map(plainContour)
    .flatMap(({ start, segments }) =>
      segments.map((segment, i): Drawn => {
        const { kind, to } = segment;
        if (kind === 'cubic') return cubic(segments[i - 1]?.to ?? start, segment.c1, segment.c2, to);
        return [kind === 'line' ? 'line' : 'arc', to.x, to.y];
      }),
    );
}

/** The library turns curves into lines whose control points lie on their chord. */
function cubic(from: Point, c1: Point, c2: Point, to: Point): Drawn {
  const off = (p: Point): number => (to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x);
  const isStraight = Math.abs(off(c1)) < 1e-6 && Math.abs(off(c2)) < 1e-6;
  return isStraight ? ['line', to.x, to.y] : ['cubic', c1.x, c1.y, c2.x, c2.y, to.x, to.y];
}

/** Is the one list the other but for lines that close a contour, which the library writes as z? */
function agrees(read: readonly Drawn[], expected: readonly Drawn[]): boolean {
  let at = 0;
  for (const item of read) {
    const other = expected[at];
    const isSame =
      other !== undefined &&
      item[0] === other[0] &&
      item.slice(1).every((value, i) => Math.abs(Number(value) - Number(other[i + 1])) < 1e-6);
    if (isSame) at++;
    else if (item[0] !== 'line') return false;
  }
  return at === expected.length;
}

describe('path commands of open icon sets', () => {
  it('have the ends and control points that another parser finds', { timeout: 120_000 }, () => {
    expect(PATHS.length).toBeGreaterThan(3000);
    expect(PATHS.filter(({ data }) => !agrees(ours(data), theirs(data))).map(({ name }) => name)).toEqual(EXCEPTIONS);
  });

  it('differ when one number is changed', () => {
    const told = PATHS.slice(0, 200).filter(({ data }) => !agrees(ours(withOneDigitChanged(data)), theirs(data)));
    // A change in a line that lies on another, or of a radius, leaves all ends where they were.
    expect(told.length).toBeGreaterThan(160);
  });
});

/** The first digit in the second half becomes another. */
function withOneDigitChanged(data: string): string {
  const half = data.length >> 1;
  return data.slice(0, half) + data.slice(half).replace(/\d/, (digit) => String((Number(digit) + 1) % 10));
}
