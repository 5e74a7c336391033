import { describe, expect, it } from 'vitest';
import { checkLayout } from '../check/check-layout.ts';
import type { Layout, NestProblem } from '../problem.ts';
import { packBoards } from './boards.ts';
import { seededRandom } from './random.ts';
import { packStrip, type StripInput } from './strip.ts';
import type { BoardsInput, SearchForm, SearchItem, Spot } from './task.ts';

const HEIGHT = 60;
const SPACING = 0.8;
const TOLERANCE = 4e-4;

/** Random concave parts with copies: the same parts as search forms and as a nesting problem for the independent check. */
function randomParts(seed: string, kinds: number, quantity: number) {
  const random = seededRandom(seed);
  const rings = Array.from({ length: kinds }, () => {
    const n = 4 + Math.floor(random() * 6);
    return Float64Array.from(
      Array.from({ length: n }, (_, v) => {
        const angle = (2 * Math.PI * (v + 0.7 * random())) / n;
        const radius = 4 + 8 * random();
        return [radius * Math.cos(angle), radius * Math.sin(angle)];
      }).flat(),
    );
  });
  const forms: SearchForm[] = rings.map((outer) => ({ region: { outer, holes: [] } }));
  const items: SearchItem[] = rings.flatMap((_, form) => {
    const poses = [0, 90, 180, 270].map((turnDeg) => ({ form, turnDeg }));
    return Array.from({ length: quantity }, () => ({ poses }));
  });
  return { forms, items, rings };
}

function verdict(
  parts: ReturnType<typeof randomParts>,
  spots: readonly Spot[],
  width: number,
  spacing: number,
  quantity: number,
) {
  const problem: NestProblem = {
    pieces: parts.rings.map((outer, index) => ({
      id: `p${index}`,
      region: { outer, holes: [] },
      outline: null,
      quantity,
      turns: 'quarter',
      baseTurnDeg: 0,
      mayMirror: false,
      keepsGrain: false,
      groups: [],
    })),
    stock: [
      {
        id: 'board',
        outline: { outer: Float64Array.of(0, 0, width, 0, width, HEIGHT, 0, HEIGHT), holes: [] },
        count: null,
        price: 1,
        forbidden: [],
        hasGrain: false,
      },
    ],
    // biome-ignore lint/suspicious/noThenProperty: the contract's name for the second aim; nothing awaits it
    rules: { spacing, margin: 0, aim: 'fewest-boards', then: 'largest-offcut' },
    pinned: [],
  };
  const boards = [...new Set(spots.map((spot) => spot.board))];
  const layout: Layout = {
    sheets: boards.map((board) => ({
      stockId: 'board',
      width,
      height: HEIGHT,
      placements: spots
        .filter((spot) => spot.board === board)
        .map((spot) => {
          const pose = parts.items[spot.item]!.poses[spot.pose]!;
          return {
            pieceId: `p${pose.form}`,
            copy: (spot.item % quantity) + 1,
            x: spot.x,
            y: spot.y,
            turnDeg: spot.turnDeg,
            mirrored: false,
          };
        }),
      windows: [],
      yield: 0,
      offcut: null,
    })),
    unplaced: [],
    yield: 0,
  };
  return checkLayout(problem, layout);
}

describe('packStrip', () => {
  for (const seed of ['a', 'b', 'c']) {
    it(`gives layouts that the independent check accepts, with spacing (${seed})`, () => {
      const parts = randomParts(seed, 5, 3);
      const input: StripInput = { ...parts, spacing: SPACING, tolerance: TOLERANCE, height: HEIGHT };
      const result = packStrip(input, { evaluations: 150_000 }, { seed });
      expect(result.spots).toHaveLength(15);
      const found = verdict(parts, result.spots, result.length, SPACING, 3);
      expect(found.violations.map((violation) => violation.message)).toEqual([]);
      expect(found.smallestGapMm).toBeGreaterThan(SPACING - 0.001);
    });
  }

  it('faulty twin: a layout searched without spacing is refused when spacing is asked', () => {
    const parts = randomParts('a', 5, 3);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const result = packStrip(input, { evaluations: 150_000 }, { seed: 'a' });
    expect(verdict(parts, result.spots, result.length, 0, 3).ok).toBe(true);
    expect(verdict(parts, result.spots, result.length, SPACING, 3).ok).toBe(false);
  });

  it('is the same for the same seed and differs for another', () => {
    const parts = randomParts('d', 4, 3);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const run = (seed: string) => packStrip(input, { evaluations: 150_000 }, { seed });
    expect(run('one')).toEqual(run('one'));
    expect(run('one').spots).not.toEqual(run('two').spots);
  });

  it('keeps a valid best when cancelled, and reports progress that never goes back', () => {
    const parts = randomParts('e', 5, 3);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const stop = new AbortController();
    const lengths: number[] = [];
    const shares: number[] = [];
    const result = packStrip(
      input,
      { evaluations: 5_000_000 },
      {
        seed: 'e',
        signal: stop.signal,
        onBetter: (_, length) => {
          lengths.push(length);
          if (lengths.length === 4) stop.abort();
        },
        onProgress: (share) => shares.push(share),
      },
    );
    expect(result.endedBy).toBe('cancelled');
    const atOnce = packStrip(input, { evaluations: 5_000_000 }, { seed: 'e', signal: AbortSignal.abort() });
    expect(verdict(parts, atOnce.spots, atOnce.length, 0, 3).violations).toEqual([]);
    expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(verdict(parts, result.spots, result.length, 0, 3).ok).toBe(true);
  });

  it('is never worse than its incumbent and keeps clear of obstacles', () => {
    const parts = randomParts('f', 4, 2);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const first = packStrip(input, { evaluations: 50_000 }, { seed: 'f' });
    expect(packStrip(input, { evaluations: 1000 }, { seed: 'g' }, first.spots).length).toBeLessThanOrEqual(
      first.length,
    );
    const clamp = { region: { outer: Float64Array.of(5, 20, 20, 20, 20, 40, 5, 40), holes: [] }, clearance: 1 };
    const around = packStrip({ ...input, obstacles: [clamp] }, { evaluations: 250_000 }, { seed: 'f' });
    const withClamp = randomParts('f', 4, 2);
    const found = verdict(withClamp, around.spots, around.length, 0, 2);
    expect(found.violations.map((violation) => violation.message)).toEqual([]);
    for (const spot of around.spots) {
      const pose = parts.items[spot.item]!.poses[spot.pose]!;
      const ring = parts.rings[pose.form]!;
      const turn = (pose.turnDeg * Math.PI) / 180;
      for (let i = 0; i < ring.length; i += 2) {
        const x = spot.x + Math.cos(turn) * ring[i]! - Math.sin(turn) * ring[i + 1]!;
        const y = spot.y + Math.sin(turn) * ring[i]! + Math.cos(turn) * ring[i + 1]!;
        expect(x > 4.001 && x < 20.999 && y > 19.001 && y < 40.999).toBe(false);
      }
    }
  });

  it('solves a jigsaw to its known length', () => {
    const squares = [18, 15, 14, 10, 9, 8, 7, 4, 1];
    const forms = squares.map((side) => ({
      region: { outer: Float64Array.of(0, 0, side, 0, side, side, 0, side), holes: [] },
    }));
    const items = squares.map((_, form) => ({ poses: [{ form, turnDeg: 0 }] }));
    const result = packStrip(
      { forms, items, spacing: 0, tolerance: 1e-4, height: 32 },
      { evaluations: 3e6 },
      { seed: 1 },
    );
    // Nine squares tile 33 by 32 (Moron 1925).
    expect(result.length).toBeCloseTo(33, 4);
  });
});

describe('packBoards', () => {
  const board = { minX: 0, minY: 0, maxX: 70, maxY: HEIGHT, obstacles: [], price: 1 };

  it('gives valid layouts on few boards, never more than the incumbent', () => {
    const parts = randomParts('h', 6, 4);
    const input: BoardsInput = { ...parts, boards: Array(8).fill(board), spacing: SPACING, tolerance: TOLERANCE };
    const first = packBoards(input, null, { evaluations: 100_000 }, { seed: 1 });
    expect(first.spots).toHaveLength(24);
    expect(verdict(parts, first.spots!, 70, SPACING, 4).violations).toEqual([]);
    const second = packBoards(input, first.spots, { evaluations: 50_000 }, { seed: 2 });
    expect(second.price).toBeLessThanOrEqual(first.price);
    expect(verdict(parts, second.spots!, 70, SPACING, 4).ok).toBe(true);
  });

  it('keeps groups on one board and prefers cheap boards', () => {
    const parts = randomParts('i', 6, 4);
    const items = parts.items.map((item, index) => ({ ...item, group: `kit ${index % 4}` }));
    const boards = [board, board, board, board, { ...board, price: 0.2 }, { ...board, price: 0.2 }];
    const input: BoardsInput = { ...parts, items, boards, spacing: 0, tolerance: TOLERANCE };
    const result = packBoards(input, null, { evaluations: 200_000 }, { seed: 3 });
    for (let kit = 0; kit < 4; kit++) {
      const where = new Set(result.spots!.filter((spot) => spot.item % 4 === kit).map((spot) => spot.board));
      expect(where.size).toBe(1);
    }
    expect(result.spots!.some((spot) => spot.board >= 4)).toBe(true);
  });

  it('never leaves a piece on a board or strip that its pose exceeds', () => {
    const forms = [{ region: { outer: Float64Array.of(0, 0, 50, 0, 50, 9, 0, 9), holes: [] } }];
    const poses = [0, 90].map((turnDeg) => ({ form: 0, turnDeg }));
    const items = Array.from({ length: 6 }, () => ({ poses }));
    const strip = packStrip(
      { forms, items, spacing: 0, tolerance: 1e-4, height: 30 },
      { evaluations: 50_000 },
      { seed: 1 },
    );
    expect(strip.spots.every((spot) => spot.turnDeg === 0)).toBe(true);
    expect(strip.length).toBeLessThan(104);
    // Two narrow boards that are cheap and too short one way, and one dear board.
    const narrow = { minX: 0, minY: 0, maxX: 60, maxY: 20, obstacles: [], price: 0.1 };
    const tiny = { minX: 0, minY: 0, maxX: 40, maxY: 40, obstacles: [], price: 0.1 };
    const boards = [board, tiny, narrow, tiny];
    const input: BoardsInput = { forms, items, boards, spacing: 0, tolerance: 1e-4 };
    const result = packBoards(input, null, { evaluations: 100_000 }, { seed: 1 });
    expect(result.spots!.some((spot) => spot.board === 1 || spot.board === 3)).toBe(false);
    expect(result.spots!.filter((spot) => spot.board === 2).every((spot) => spot.turnDeg === 0)).toBe(true);
  });

  it('fills boards of a known cut without waste', () => {
    const cut = [
      [0, 0, 31, 0, 26, 44, 0, 40],
      [31, 0, 70, 0, 70, 25, 26, 44],
      [0, 40, 26, 44, 38, 60, 0, 60],
      [26, 44, 70, 25, 70, 60, 38, 60],
    ].map((ring) => Float64Array.from(ring));
    const forms = cut.map((outer) => ({ region: { outer, holes: [] } }));
    const items = [...cut, ...cut].map((_, index) => ({
      poses: [0, 90, 180, 270].map((turnDeg) => ({ form: index % 4, turnDeg })),
    }));
    const input: BoardsInput = {
      forms,
      items,
      boards: Array(5).fill(board),
      spacing: 0,
      tolerance: 1e-4,
      priceBound: 2,
    };
    const result = packBoards(input, null, { evaluations: 2e6 }, { seed: 1 });
    expect(result.boardsUsed).toBe(2);
    expect(result.endedBy).toBe('bound');
  });
});

describe('free turns', () => {
  it('puts five unit squares into a square of side 2.7072', () => {
    // 2 + 1 / sqrt 2 = 2.70711 is least possible (Friedman, Packing Unit Squares in Squares, EJC DS7; value from memory).
    const forms = [{ region: { outer: Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1), holes: [] } }];
    const poses = [0, 30, 60].map((turnDeg) => ({ form: 0, turnDeg }));
    const items = Array.from({ length: 5 }, () => ({ poses, isFreeToTurn: true }));
    const side = 2.7072;
    const boards = Array(2).fill({ minX: 0, minY: 0, maxX: side, maxY: side, obstacles: [], price: 1 });
    const input: BoardsInput = { forms, items, boards, spacing: 0, tolerance: 1e-6, priceBound: 1 };
    const result = packBoards(input, null, { evaluations: 6_000_000 }, { seed: 1 });
    expect(result.boardsUsed).toBe(1);
    const tilted = result.spots!.filter((spot) => Math.abs((spot.turnDeg % 90) - 45) < 5);
    expect(tilted).toHaveLength(1);
  });

  it('cannot do it with listed turns of 0, 30 and 60 degrees', () => {
    const forms = [{ region: { outer: Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1), holes: [] } }];
    const items = Array.from({ length: 5 }, () => ({ poses: [0, 30, 60].map((turnDeg) => ({ form: 0, turnDeg })) }));
    const boards = Array(2).fill({ minX: 0, minY: 0, maxX: 2.7072, maxY: 2.7072, obstacles: [], price: 1 });
    const input: BoardsInput = { forms, items, boards, spacing: 0, tolerance: 1e-6, priceBound: 1 };
    expect(packBoards(input, null, { evaluations: 500_000 }, { seed: 1 }).boardsUsed).toBe(2);
  });
});
