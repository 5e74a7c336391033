import type { NestPiece, NestProblem, Placement } from '@underlap/nest/problem';
import seedrandom from 'seedrandom';
import { boardStock, boxRegion, nestPart, nestProblem } from './nest-problems.ts';

/** A jigsaw that fills one board to the last square millimetre, with a solution that is known. */
export interface ExactPacking {
  readonly name: string;
  readonly problem: NestProblem;
  readonly solution: readonly Placement[];
  readonly source: string;
}

/** Side of one cell of the pentominoes and of one unit of the squared rectangle, mm. */
const CELL = 10;

const touching = { spacing: 0, margin: 0 };

/** Nine squares that tile 33 x 32: Moron (1925). Corners and sides, in units. */
const SQUARES = [
  [0, 0, 18],
  [18, 0, 15],
  [0, 18, 14],
  [14, 18, 4],
  [18, 15, 7],
  [25, 15, 8],
  [14, 22, 10],
  [24, 22, 1],
  [24, 23, 9],
] as const;

/** The squared rectangle of order nine. */
export function squaredRectangle(): ExactPacking {
  const parts = SQUARES.map(([, , side]) =>
    nestPart(`square ${side}`, boxRegion(side * CELL, side * CELL), { turns: 'fixed' }),
  );
  return {
    name: 'squared rectangle 33 x 32',
    problem: nestProblem(parts, [boardStock(33 * CELL, 32 * CELL)], touching),
    solution: SQUARES.map(([x, y, side]) => placed(`square ${side}`, x * CELL, y * CELL)),
    source: 'Moron (1925)',
  };
}

/** Cells of the twelve pentominoes. */
const PENTOMINOES: Readonly<Record<string, readonly string[]>> = {
  F: ['.##', '##.', '.#.'],
  I: ['#####'],
  L: ['####', '#...'],
  N: ['##..', '.###'],
  P: ['##', '##', '#.'],
  T: ['###', '.#.', '.#.'],
  U: ['#.#', '###'],
  V: ['#..', '#..', '###'],
  W: ['#..', '##.', '.##'],
  X: ['.#.', '###', '.#.'],
  Y: ['####', '.#..'],
  Z: ['##.', '.#.', '.##'],
};

type Cells = readonly (readonly [number, number])[];

/**
 * The twelve pentominoes in 6 x 10 cells, each in the attitude it has in one of the 2,339 solutions (Haselgrove and
 * Haselgrove 1960; number from memory), found here by trying all places.
 * @param turns - what the nester may do with them.
 */
export function pentominoes(turns: NestPiece['turns'] = 'fixed'): ExactPacking {
  const tiling = tile(10, 6);
  const parts: NestPiece[] = [];
  const solution: Placement[] = [];
  for (const { name, cells } of tiling) {
    const minX = Math.min(...cells.map(([x]) => x));
    const minY = Math.min(...cells.map(([, y]) => y));
    const own = cells.map(([x, y]) => [x - minX, y - minY] as const);
    parts.push(nestPart(name, { outer: outlineOf(own), holes: [] }, { turns }));
    solution.push(placed(name, minX * CELL, minY * CELL));
  }
  return {
    name: `pentominoes 6 x 10, ${String(turns)}`,
    problem: nestProblem(parts, [boardStock(10 * CELL, 6 * CELL)], touching),
    solution,
    source: 'Haselgrove and Haselgrove (1960)',
  };
}

/**
 * A board of 400 x 300 mm cut up by random straight cuts.
 * @param count - number of pieces.
 */
export function cutUpBoard(seed: string, count: number): ExactPacking {
  const random = seedrandom(seed);
  let pieces: Float64Array[] = [boxRegion(400, 300).outer];
  while (pieces.length < count) {
    const largest = pieces.reduce((best, piece) => (area(piece) > area(best) ? piece : best));
    const [a, b] = halves(largest, random);
    if (Math.min(area(a), area(b)) < 0.25 * area(largest)) continue;
    pieces = [...pieces.filter((piece) => piece !== largest), a, b];
  }
  const parts = pieces.map((piece, i) => {
    const [x, y] = [piece[0]!, piece[1]!];
    return {
      part: nestPart(
        `cut ${i}`,
        { outer: piece.map((v, k) => v - (k % 2 === 0 ? x : y)), holes: [] },
        { turns: 'fixed' },
      ),
      x,
      y,
    };
  });
  return {
    name: `cut-up board, ${count} pieces`,
    problem: nestProblem(
      parts.map(({ part }) => part),
      [boardStock(400, 300)],
      touching,
    ),
    solution: parts.map(({ part, x, y }) => placed(part.id, x, y)),
    source: 'own, known by construction',
  };
}

function placed(pieceId: string, x: number, y: number): Placement {
  return { pieceId, copy: 1, x, y, turnDeg: 0, mirrored: false };
}

/** First tiling found: always the first free cell, all pieces, all attitudes. */
function tile(width: number, height: number): { name: string; cells: Cells }[] {
  const shapes = Object.entries(PENTOMINOES).map(([name, rows]) => ({ name, attitudes: attitudesOf(rows) }));
  const taken = new Uint8Array(width * height);
  const used: { name: string; cells: Cells }[] = [];
  const place = (): boolean => {
    const free = taken.indexOf(0);
    if (free < 0) return true;
    const [fx, fy] = [Math.floor(free / height), free % height];
    for (const { name, attitudes } of shapes) {
      if (used.some((u) => u.name === name)) continue;
      for (const attitude of attitudes) {
        const cells = attitude.map(([x, y]) => [x + fx, y + fy] as const);
        if (!cells.every(([x, y]) => x >= 0 && y >= 0 && x < width && y < height && taken[x * height + y] === 0))
          continue;
        for (const [x, y] of cells) taken[x * height + y] = 1;
        used.push({ name, cells });
        if (place()) return true;
        used.pop();
        for (const [x, y] of cells) taken[x * height + y] = 0;
      }
    }
    return false;
  };
  place();
  return used;
}

/** All turns and mirror images, moved so that the first cell in column order is 0, 0. */
function attitudesOf(rows: readonly string[]): Cells[] {
  let cells: Cells = rows.flatMap((row, y) => [...row].flatMap((c, x) => (c === '#' ? [[x, y] as const] : [])));
  const known = new Map<string, Cells>();
  for (let k = 0; k < 8; k++) {
    const sorted = [...cells].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
    const [ox, oy] = sorted[0]!;
    const moved = sorted.map(([x, y]) => [x - ox, y - oy] as const);
    known.set(JSON.stringify(moved), moved);
    cells = k === 3 ? cells.map(([x, y]) => [-x, y] as const) : cells.map(([x, y]) => [-y, x] as const);
  }
  return [...known.values()];
}

/** Outline of a set of cells, counter-clockwise, by walking the cell sides that have no neighbour. */
function outlineOf(cells: Cells): Float64Array {
  const has = (x: number, y: number) => cells.some(([cx, cy]) => cx === x && cy === y);
  const next = new Map<string, readonly [number, number]>();
  for (const [x, y] of cells) {
    if (!has(x, y - 1)) next.set(`${x},${y}`, [x + 1, y]);
    if (!has(x + 1, y)) next.set(`${x + 1},${y}`, [x + 1, y + 1]);
    if (!has(x, y + 1)) next.set(`${x + 1},${y + 1}`, [x, y + 1]);
    if (!has(x - 1, y)) next.set(`${x},${y + 1}`, [x, y]);
  }
  const start = cells.map(([x, y]) => [x, y] as const).find(([x, y]) => !has(x, y - 1))!;
  const points: (readonly [number, number])[] = [];
  let at = start;
  do {
    points.push(at);
    at = next.get(`${at[0]},${at[1]}`)!;
  } while (at[0] !== start[0] || at[1] !== start[1]);
  const corners = points.filter(([x, y], i) => {
    const [px, py] = points[(i + points.length - 1) % points.length]!;
    const [qx, qy] = points[(i + 1) % points.length]!;
    return (x - px) * (qy - y) - (y - py) * (qx - x) !== 0;
  });
  return Float64Array.from(corners.flatMap(([x, y]) => [x * CELL, y * CELL]));
}

function area(ring: Float64Array): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    twice += ring[i]! * ring[j + 1]! - ring[j]! * ring[i + 1]!;
  }
  return twice / 2;
}

/** Cut a convex polygon by a line through two points of its outline. */
function halves(ring: Float64Array, random: () => number): [Float64Array, Float64Array] {
  const n = ring.length / 2;
  const first = Math.floor(random() * n);
  const second = (first + 1 + Math.floor(random() * (n - 1))) % n;
  const at = (edge: number): [number, number] => {
    const u = 0.2 + 0.6 * random();
    const j = (edge + 1) % n;
    return [ring[2 * edge]! * (1 - u) + ring[2 * j]! * u, ring[2 * edge + 1]! * (1 - u) + ring[2 * j + 1]! * u];
  };
  const [p, q] = [at(first), at(second)];
  const walk = (from: number, to: number, start: [number, number], end: [number, number]) => {
    const out = [...start];
    for (let v = (from + 1) % n; ; v = (v + 1) % n) {
      out.push(ring[2 * v]!, ring[2 * v + 1]!);
      if (v === to) break;
    }
    return Float64Array.from([...out, ...end]);
  };
  return [walk(first, second, p, q), walk(second, first, q, p)];
}
