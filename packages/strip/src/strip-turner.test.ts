import { checkLayout } from '@underlap/nest/check/check-layout';
import type { Layout, NestProblem } from '@underlap/nest/problem';
import { seededRandom } from '@underlap/nest/search/random';
import type { SearchItem, Spot } from '@underlap/nest/search/task';
import { describe, expect, it } from 'vitest';
import { packStrip, type StripInput } from './pack-strip.ts';

const TOLERANCE = 4e-4;
const RIGHT_ANGLES = [0, 90, 180, 270];

/** Triangles and wedges whose sides stand at odd angles to each other: right angles leave gaps between them. */
function wedges(seed: string, kinds: number, copies: number, isFreeToTurn: boolean) {
  const random = seededRandom(seed);
  const rings = Array.from({ length: kinds }, () => {
    const wide = 14 + 10 * random();
    const high = 6 + 8 * random();
    const top = wide * (0.1 + 0.3 * random());
    const lean = wide * (0.2 * random() - 0.1);
    return Float64Array.of(
      0,
      0,
      wide,
      2 * random() - 1,
      wide / 2 + lean + top / 2,
      high,
      wide / 2 + lean - top / 2,
      high,
    );
  });
  const items = rings.flatMap((_, form) => {
    const poses = RIGHT_ANGLES.map((turnDeg) => ({ form, turnDeg }));
    return Array.from({ length: copies }, (): SearchItem => ({ poses, isFreeToTurn }));
  });
  return { rings, forms: rings.map((outer) => ({ outer, holes: [] })), items, copies };
}

/** The independent check's word on a strip. */
function violationsOf(parts: ReturnType<typeof wedges>, spots: readonly Spot[], length: number, input: StripInput) {
  const { height, spacing } = input;
  const problem: NestProblem = {
    pieces: parts.rings.map((outer, form) => ({
      id: `part ${form}`,
      region: { outer, holes: [] },
      outline: null,
      quantity: parts.copies,
      turns: 'any',
      baseTurnDeg: 0,
      mayMirror: false,
      keepsGrain: false,
      groups: [],
    })),
    stock: [
      {
        id: 'strip',
        outline: { outer: Float64Array.of(0, 0, length, 0, length, height, 0, height), holes: [] },
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
  const layout: Layout = {
    sheets: [
      {
        stockId: 'strip',
        width: length,
        height,
        placements: spots.map((spot) => {
          const form = Math.floor(spot.item / parts.copies);
          const copy = (spot.item % parts.copies) + 1;
          const { x, y, turnDeg } = spot;
          return { pieceId: `part ${form}`, copy, x, y, turnDeg, mirrored: false };
        }),
        windows: [],
        yield: 0,
        offcut: null,
      },
    ],
    unplaced: [],
    yield: 0,
  };
  return checkLayout(problem, layout).violations.map((violation) => violation.message);
}

describe('strips with pieces that may take any turn', () => {
  const SETS = [
    { seed: 'one', spacing: 0 },
    { seed: 'two', spacing: 0.5 },
    { seed: 'three', spacing: 0 },
  ] as const;
  const run = (seed: string, isFreeToTurn: boolean, spacing: number, evaluations: number) => {
    const parts = wedges(seed, 6, 3, isFreeToTurn);
    const input: StripInput = { ...parts, spacing, tolerance: TOLERANCE, height: 40 };
    return { parts, input, result: packStrip(input, { evaluations }, { seed }) };
  };

  it('are shorter than with right angles for the same work: three sets together', () => {
    let free = 0;
    let listed = 0;
    for (const { seed, spacing } of SETS) {
      const { parts, input, result } = run(seed, true, spacing, 1_800_000);
      expect(violationsOf(parts, result.spots, result.length, input)).toEqual([]);
      expect(result.spots.some(({ turnDeg }) => turnDeg % 90 > 1 && turnDeg % 90 < 89)).toBe(true);
      free += result.length;
      listed += run(seed, false, spacing, 1_800_000).result.length;
    }
    expect(free).toBeLessThan(0.99 * listed);
  });

  it('are the same for the same seed', () => {
    expect(run('one', true, 0, 700_000).result).toEqual(run('one', true, 0, 700_000).result);
  });

  it('faulty twin: turned by a degree, a layout is refused by the check', () => {
    const { parts, input, result } = run('one', true, 0, 700_000);
    const askew = result.spots.map((spot) => (spot.item === 4 ? { ...spot, turnDeg: spot.turnDeg + 1 } : spot));
    expect(violationsOf(parts, askew, result.length, input)).not.toEqual([]);
  });

  it('put five unit squares into a strip of height and length 2.7072, which right angles cannot', () => {
    // 2 + 1 / sqrt 2 = 2.70711 is least possible (Friedman, Packing Unit Squares in Squares, EJC DS7; value from memory).
    const forms = [{ outer: Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1), holes: [] }];
    const poses = RIGHT_ANGLES.map((turnDeg) => ({ form: 0, turnDeg }));
    const lengthOf = (isFreeToTurn: boolean) => {
      const items = Array.from({ length: 5 }, () => ({ poses, isFreeToTurn }));
      const input: StripInput = { forms, items, spacing: 0, tolerance: 1e-6, height: 2.7072 };
      return packStrip(input, { evaluations: 3_000_000 }, { seed: 1 }).length;
    };
    expect(lengthOf(true)).toBeLessThan(2.7072);
    expect(lengthOf(false)).toBeGreaterThan(2.99);
  });

  it('keep clear of obstacles', () => {
    const parts = wedges('obstacle', 5, 3, true);
    const clamp = { region: { outer: Float64Array.of(10, 10, 20, 10, 20, 25, 10, 25), holes: [] }, clearance: 2 };
    const input: StripInput = { ...parts, spacing: 1, tolerance: 1e-4, height: 40, obstacles: [clamp] };
    const { spots, length } = packStrip(input, { evaluations: 400_000 }, { seed: 1 });
    expect(spots).toHaveLength(15);
    expect(length).toBeLessThan(1e3);
    for (const spot of spots) {
      const ring = parts.rings[Math.floor(spot.item / 3)]!;
      const turn = (spot.turnDeg * Math.PI) / 180;
      for (let i = 0; i < ring.length; i += 2) {
        const x = spot.x + Math.cos(turn) * ring[i]! - Math.sin(turn) * ring[i + 1]!;
        const y = spot.y + Math.sin(turn) * ring[i]! + Math.cos(turn) * ring[i + 1]!;
        expect(x).toBeGreaterThan(-1e-3);
        expect(x).toBeLessThan(length + 1e-3);
        expect(x > 8.01 && x < 21.99 && y > 9.99 && y < 25.01).toBe(false);
      }
    }
  });
});
