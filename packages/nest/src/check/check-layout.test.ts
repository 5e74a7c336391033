import type { Contour, Shape } from '@underlap/geometry/curve';
import { shapeToRegion } from '@underlap/geometry/flatten';
import { describe, expect, it } from 'vitest';
import { parseCopyName } from '../copy.ts';
import type { Layout, NestPiece, NestProblem, Placement, Sheet, Span, Stock } from '../problem.ts';
import { checkLayout } from './check-layout.ts';

const box = (width: number, height: number, x = 0, y = 0) => ({
  outer: Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height),
  holes: [] as Float64Array[],
});

function part(id: string, more: Partial<NestPiece> = {}): NestPiece {
  return {
    id,
    region: box(20, 10),
    outline: null,
    quantity: 1,
    turns: 'quarter',
    baseTurnDeg: 0,
    mayMirror: false,
    keepsGrain: false,
    groups: [],
    ...more,
  };
}

const board: Stock = { id: 'board', outline: box(100, 60), count: null, price: 1, forbidden: [], hasGrain: false };

const span = (from: number, to: number): Span => ({ from, to });
const reaching = (columns: Span[], rows: Span[]): Stock => ({ ...board, reach: { columns, rows } });

function problemOf(parts: NestPiece[], more: Partial<NestProblem> = {}): NestProblem {
  // biome-ignore lint/suspicious/noThenProperty: a word of the nesting rules; nobody awaits them
  const rules = { spacing: 2, margin: 5, aim: 'fewest-boards', then: 'largest-offcut' } as const;
  return { pieces: parts, stock: [board], rules, pinned: [], ...more };
}

const copy = (name: string) => parseCopyName(name)!;

function at(name: string, x: number, y: number, more: Partial<Placement> = {}): Placement {
  return { ...copy(name), x, y, turnDeg: 0, mirrored: false, ...more };
}

function sheet(placements: Placement[], more: Partial<Sheet> = {}): Sheet {
  return { stockId: 'board', width: 100, height: 60, placements, windows: [], yield: 0, offcut: null, ...more };
}

const layout = (...sheets: Sheet[]): Layout => ({ sheets, unplaced: [], yield: 0 });

const kinds = (problem: NestProblem, found: Layout) => checkLayout(problem, found).violations.map((v) => v.kind);

const two = problemOf([part('a', { quantity: 2 })]);

describe('the layout check', () => {
  it('passes a good layout and measures its smallest gap and margin', () => {
    const verdict = checkLayout(two, layout(sheet([at('a#1', 5, 5), at('a#2', 27, 8)])));
    expect(verdict).toMatchObject({ ok: true, violations: [] });
    expect(verdict.smallestGapMm).toBeCloseTo(2, 9);
    expect(verdict.smallestMarginMm).toBeCloseTo(5, 9);
  });

  it('lets a hundredth of its tolerance pass and blames twice the tolerance', () => {
    expect(checkLayout(two, layout(sheet([at('a#1', 5, 5), at('a#2', 26.99999, 8)]))).ok).toBe(true);
    const verdict = checkLayout(two, layout(sheet([at('a#1', 5, 5), at('a#2', 26.998, 8)])));
    expect(verdict.violations).toMatchObject([{ kind: 'spacing', copies: [copy('a#1'), copy('a#2')], sheet: 0 }]);
    expect(verdict.violations[0]!.amountMm).toBeCloseTo(0.002, 6);
    expect(verdict.violations[0]!.x).toBeGreaterThan(24.9);
    expect(verdict.violations[0]!.x).toBeLessThan(27.1);
  });

  it('finds overlaps: crossing, contained, and exactly on top', () => {
    expect(kinds(two, layout(sheet([at('a#1', 5, 5), at('a#2', 15, 8)])))).toEqual(['overlap']);
    expect(kinds(two, layout(sheet([at('a#1', 5, 5), at('a#2', 5, 5)])))).toEqual(['overlap']);
    const nested = problemOf([part('a'), part('b', { region: box(80, 40) })]);
    const verdict = checkLayout(nested, layout(sheet([at('a#1', 40, 20), at('b#1', 10, 10)])));
    expect(verdict.violations).toMatchObject([{ kind: 'overlap' }]);
    // the deepest point of the small one lies 20 mm below the top of the large one or 10 mm above its bottom
    expect(verdict.violations[0]!.amountMm).toBeGreaterThanOrEqual(10);
  });

  it('takes touching for no overlap when no spacing is asked, and a hundredth of a millimetre for one', () => {
    const free = problemOf([part('a', { quantity: 2 })], { rules: { ...two.rules, spacing: 0, margin: 0 } });
    expect(checkLayout(free, layout(sheet([at('a#1', 0, 0), at('a#2', 20, 0)]))).ok).toBe(true);
    expect(checkLayout(free, layout(sheet([at('a#1', 0, 0), at('a#2', 20, 5)]))).ok).toBe(true);
    expect(kinds(free, layout(sheet([at('a#1', 0, 0), at('a#2', 19.99, 0)])))).toEqual(['overlap']);
    expect(kinds(free, layout(sheet([at('a#1', 0, 0), at('a#2', 19.99, 5)])))).toEqual(['overlap']);
    // an overlap found after a pair that touches, so that the smallest gap is 0 already; and the same at the board's edge
    const three = problemOf([part('a', { quantity: 3 })], { rules: free.rules });
    const row = (third: number) => layout(sheet([at('a#1', 0, 0), at('a#2', 20, 0), at('a#3', third, 5)]));
    expect(kinds(three, row(40))).toEqual([]);
    expect(kinds(three, row(39.95))).toEqual(['overlap']);
    expect(kinds(three, row(80.05))).toEqual(['outside']);
  });

  it('lets a piece lie in the hole of another, but not on its rim', () => {
    const frame = { ...box(60, 40), holes: [Float64Array.of(10, 5, 10, 35, 50, 35, 50, 5)] };
    const p = problemOf([part('frame', { region: frame }), part('a')]);
    expect(checkLayout(p, layout(sheet([at('frame#1', 10, 10), at('a#1', 25, 20)]))).ok).toBe(true);
    expect(kinds(p, layout(sheet([at('frame#1', 10, 10), at('a#1', 21, 20)])))).toEqual(['spacing']);
    expect(kinds(p, layout(sheet([at('frame#1', 10, 10), at('a#1', 12, 20)])))).toEqual(['overlap']);
  });

  it('measures exact curves, not their chords', () => {
    const round = disc(10);
    // chords of 0.5 mm sagitta: a check on the region would see more room than there is
    const p = problemOf([part('o', { outline: round, region: shapeToRegion(round, 0.5), quantity: 2 })]);
    const apart = (gap: number, turnDeg: number) =>
      checkLayout(p, layout(sheet([at('o#1', 20, 20, { turnDeg }), at('o#2', 20 + 20 + gap, 20)])));
    expect(apart(2.001, 0).ok).toBe(true);
    expect(apart(2.001, 90).smallestGapMm).toBeCloseTo(2.001, 4);
    expect(apart(1.998, 90).violations).toMatchObject([{ kind: 'spacing' }]);
  });

  it('blames margins, pieces that leave the board, and holes of an offcut', () => {
    const one = problemOf([part('a')]);
    expect(kinds(one, layout(sheet([at('a#1', 4.9, 8)])))).toEqual(['margin']);
    expect(kinds(one, layout(sheet([at('a#1', -1, 8)])))).toEqual(['outside']);
    expect(kinds(one, layout(sheet([at('a#1', 300, 8)])))).toEqual(['outside']);
    const offcut: Stock = {
      ...board,
      outline: { ...box(100, 60), holes: [Float64Array.of(45, 25, 45, 30, 50, 30, 50, 25)] },
    };
    const holed = problemOf([part('a', { region: box(40, 40) })], { stock: [offcut] });
    // the hole lies wholly under the piece: no outlines cross
    expect(kinds(holed, layout(sheet([at('a#1', 30, 10)])))).toEqual(['outside']);
    expect(kinds(holed, layout(sheet([at('a#1', 52, 10)])))).toEqual(['margin']);
    expect(kinds(holed, layout(sheet([at('a#1', 55, 10)])))).toEqual([]);
  });

  it('keeps forbidden zones clear by the spacing', () => {
    const clamp: Stock = { ...board, forbidden: [box(10, 10, 50, 20)] };
    const p = problemOf([part('a')], { stock: [clamp] });
    expect(kinds(p, layout(sheet([at('a#1', 62, 20)])))).toEqual([]);
    expect(kinds(p, layout(sheet([at('a#1', 61, 20)])))).toEqual(['forbidden']);
    expect(kinds(p, layout(sheet([at('a#1', 45, 18)])))).toEqual(['forbidden']);
  });

  it('counts pieces: missing, extra, twice, unknown', () => {
    expect(kinds(two, layout(sheet([at('a#1', 5, 5)])))).toEqual(['missing']);
    expect(kinds(two, { ...layout(sheet([at('a#1', 5, 5)])), unplaced: [{ ...copy('a#2'), why: 'no room' }] })).toEqual(
      [],
    );
    expect(kinds(two, layout(sheet([at('a#1', 5, 5), at('a#2', 30, 5), at('a#2', 60, 5)])))).toEqual(['extra']);
    expect(kinds(two, layout(sheet([at('a#1', 5, 5), at('a#2', 30, 5), at('a#3', 60, 5)])))).toEqual(['extra']);
    const both = { ...layout(sheet([at('a#1', 5, 5), at('a#2', 30, 5)])), unplaced: [{ ...copy('a#2'), why: '' }] };
    expect(kinds(two, both)).toEqual(['extra']);
    expect(kinds(two, layout(sheet([at('a#1', 5, 5), at('a#2', Number.NaN, 5)])))).toEqual(['outside']);
  });

  it('holds pieces to their turns, mirrors and the grain', () => {
    const one = (more: Partial<NestPiece>, stock: Stock, placement: Partial<Placement>) =>
      kinds(problemOf([part('a', more)], { stock: [stock] }), layout(sheet([at('a#1', 50, 30, placement)])));
    expect(one({}, board, { turnDeg: 90 })).toEqual([]);
    expect(one({}, board, { turnDeg: 45 })).toEqual(['turn']);
    expect(one({ turns: 'fixed' }, board, { turnDeg: 180 })).toEqual(['turn']);
    expect(one({ turns: 'half' }, board, { turnDeg: 180 })).toEqual([]);
    expect(one({ turns: 'any' }, board, { turnDeg: 33.7 })).toEqual([]);
    expect(one({ turns: { stepDeg: 50 } }, board, { turnDeg: 40 })).toEqual([]);
    expect(one({ turns: { stepDeg: 50 } }, board, { turnDeg: 45 })).toEqual(['turn']);
    expect(one({}, board, { mirrored: true })).toEqual(['mirror']);
    expect(one({ mayMirror: true }, board, { mirrored: true })).toEqual([]);
    expect(one({ keepsGrain: true }, { ...board, hasGrain: true }, { turnDeg: 90 })).toEqual(['turn']);
    expect(one({ keepsGrain: true }, board, { turnDeg: 90 })).toEqual([]);
  });

  it('counts the turns of a piece that lies askew from its base turn, turned over too', () => {
    const askew = (more: Partial<NestPiece>, placement: Partial<Placement>) =>
      kinds(
        problemOf([part('a', { baseTurnDeg: 37.5, mayMirror: true, ...more })]),
        layout(sheet([at('a#1', 50, 30, placement)])),
      );
    for (const turnDeg of [37.5, 127.5, 217.5, 307.5]) expect(askew({}, { turnDeg })).toEqual([]);
    expect(askew({ turns: 'half' }, { turnDeg: 127.5 })).toEqual(['turn']);
    expect(askew({ turns: 'fixed' }, { turnDeg: 37.5 })).toEqual([]);
    for (const turnDeg of [0, 90, 37.4, 52.5]) expect(askew({}, { turnDeg })).toEqual(['turn']);
    expect(askew({ turns: 'any' }, { turnDeg: 52.5 })).toEqual([]);
    expect(askew({}, { turnDeg: 322.5, mirrored: true })).toEqual([]);
    expect(askew({}, { turnDeg: 52.5, mirrored: true })).toEqual([]);
    expect(askew({}, { turnDeg: 37.5, mirrored: true })).toEqual(['turn']);
  });

  it('keeps groups on one sheet', () => {
    const p = problemOf([part('a', { quantity: 2, groups: ['kit', 'kit'] })]);
    expect(kinds(p, layout(sheet([at('a#1', 5, 5), at('a#2', 30, 5)])))).toEqual([]);
    expect(kinds(p, layout(sheet([at('a#1', 5, 5)]), sheet([at('a#2', 5, 5)])))).toEqual(['group']);
  });

  it('counts stock and compares sheets with it', () => {
    const few = problemOf([part('a', { quantity: 2 })], { stock: [{ ...board, count: 1 }] });
    expect(kinds(few, layout(sheet([at('a#1', 5, 5)]), sheet([at('a#2', 5, 5)])))).toEqual(['stock']);
    expect(kinds(two, layout(sheet([at('a#1', 5, 5), at('a#2', 30, 5)], { stockId: 'other' })))).toEqual(['stock']);
    expect(kinds(two, layout(sheet([at('a#1', 5, 5), at('a#2', 30, 5)], { width: 120 })))).toEqual(['stock']);
  });

  it('asks for every piece in one window of the bed', () => {
    const p = problemOf([part('a', { quantity: 2 })], {
      stock: [reaching([span(0, 60), span(40, 100)], [span(0, 60)])],
    });
    const windows = (first: string[], second: string[], width = 60) => [
      { x: 0, y: 0, width: 60, height: 60, copies: first.map(copy) },
      { x: 40, y: 0, width, height: 60, copies: second.map(copy) },
    ];
    const placements = [at('a#1', 5, 5), at('a#2', 70, 5)];
    expect(kinds(p, layout(sheet(placements, { windows: windows(['a#1'], ['a#2']) })))).toEqual([]);
    expect(kinds(p, layout(sheet(placements, { windows: windows(['a#1', 'a#2'], []) })))).toEqual(['window']);
    expect(kinds(p, layout(sheet(placements, { windows: windows(['a#1'], []) })))).toEqual(['window']);
    expect(kinds(p, layout(sheet(placements)))).toEqual(['window', 'window']);
    // a window that is larger than what the bed reaches is none
    expect(kinds(p, layout(sheet(placements, { windows: windows(['a#1'], ['a#2'], 70) })))).toEqual(['window']);
  });

  it('judges curves at the edge of a window exactly', () => {
    const round = part('o', { outline: disc(10), region: shapeToRegion(disc(10), 0.01) });
    const p = problemOf([round], { stock: [reaching([span(0, 100)], [span(20, 50)])] });
    const verdict = (y: number, turnDeg: number) =>
      kinds(
        p,
        layout(
          sheet([at('o#1', 20, y, { turnDeg })], {
            windows: [{ x: 0, y: 20, width: 100, height: 30, copies: [copy('o#1')] }],
          }),
        ),
      );
    // a turned arc has a box that is a little larger than the arc
    for (const turnDeg of [0, 90]) {
      expect(verdict(30, turnDeg)).toEqual([]);
      expect(verdict(40, turnDeg)).toEqual([]);
      expect(verdict(29.9, turnDeg)).toEqual(['window']);
      expect(verdict(40.1, turnDeg)).toEqual(['window']);
    }
  });

  it('sees that a pinned piece was moved', () => {
    const pin = { ...copy('a#1'), sheet: 0, stockId: 'board', x: 5, y: 5, turnDeg: 0, mirrored: false };
    const p = problemOf([part('a')], { pinned: [pin] });
    expect(kinds(p, layout(sheet([at('a#1', 5, 5)])))).toEqual([]);
    expect(kinds(p, layout(sheet([at('a#1', 6, 5)])))).toEqual(['pinned']);
  });

  it('maps mirrored and turned curves as the placement says', () => {
    // a quarter disc is told apart in every attitude
    const quarter: Shape = {
      outer: {
        start: { x: 0, y: 0 },
        segments: [
          { kind: 'line', to: { x: 20, y: 0 } },
          {
            kind: 'ellipse',
            to: { x: 0, y: 10 },
            centre: { x: 0, y: 0 },
            rx: 20,
            ry: 10,
            axisTurn: 0,
            from: 0,
            sweep: Math.PI / 2,
          },
          { kind: 'line', to: { x: 0, y: 0 } },
        ],
        closed: true,
      },
      holes: [],
    };
    const p = problemOf([
      part('q', { outline: quarter, region: shapeToRegion(quarter, 0.01), mayMirror: true, turns: 'any' }),
    ]);
    // mirrored the piece reaches from -20 to 0; turned by 90 after that from 0 down to -20 in y and to -10 in x
    expect(kinds(p, layout(sheet([at('q#1', 25, 5, { mirrored: true })])))).toEqual([]);
    expect(kinds(p, layout(sheet([at('q#1', 24.9, 5, { mirrored: true })])))).toEqual(['margin']);
    expect(kinds(p, layout(sheet([at('q#1', 15, 25, { mirrored: true, turnDeg: 90 })])))).toEqual([]);
    expect(kinds(p, layout(sheet([at('q#1', 14.9, 25, { mirrored: true, turnDeg: 90 })])))).toEqual(['margin']);
    expect(kinds(p, layout(sheet([at('q#1', 15, 24.9, { mirrored: true, turnDeg: 90 })])))).toEqual(['margin']);
  });
});

function disc(radius: number): Shape {
  const start = { x: radius, y: 0 };
  const outer: Contour = {
    start,
    segments: [{ kind: 'arc', to: start, centre: { x: 0, y: 0 }, radius, sweep: 2 * Math.PI }],
    closed: true,
  };
  return { outer, holes: [] };
}
