import { type Region, regionBounds } from '@underlap/geometry/region';
import type { NestPiece, NestProblem, Stock, TurnRule } from '@underlap/nest/problem';
import seedrandom from 'seedrandom';

/** A rectangle with its lower left corner at x, y. */
export function boxRegion(width: number, height: number, x = 0, y = 0): Region {
  return { outer: Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height), holes: [] };
}

/** A wavy closed outline around the origin. */
export function wavyRegion(random: () => number, radius: number, vertices: number): Region {
  const phase = [random() * 6, random() * 6, random() * 6] as const;
  const outer = new Float64Array(2 * vertices);
  for (let i = 0; i < vertices; i++) {
    const t = (2 * Math.PI * i) / vertices;
    const r =
      radius *
      (1 + 0.25 * Math.sin(2 * t + phase[0]) + 0.15 * Math.sin(3 * t + phase[1]) + 0.1 * Math.sin(5 * t + phase[2]));
    outer[2 * i] = r * Math.cos(t);
    outer[2 * i + 1] = r * Math.sin(t);
  }
  return { outer, holes: [] };
}

/** A part that may be turned by quarters, with anything else as given. */
export function nestPart(id: string, region: Region, more: Partial<NestPiece> = {}): NestPiece {
  return {
    id,
    region,
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

/** A board as bought, as many as needed. */
export function boardStock(width: number, height: number, more: Partial<Stock> = {}): Stock {
  return {
    id: `${width}x${height}`,
    outline: boxRegion(width, height),
    count: null,
    price: 1,
    forbidden: [],
    hasGrain: false,
    ...more,
  };
}

/** A problem with the workshop's usual rules: spacing 2 mm, margin 5 mm. */
export function nestProblem(
  parts: readonly NestPiece[],
  stock: readonly Stock[],
  rules: Partial<NestProblem['rules']> = {},
): NestProblem {
  return {
    pieces: parts,
    stock,
    // biome-ignore lint/suspicious/noThenProperty: a word of the nesting rules; nobody awaits them
    rules: { spacing: 2, margin: 5, aim: 'fewest-boards', then: 'largest-offcut', ...rules },
    pinned: [],
  };
}

/** Wavy parts of mixed sizes in the given numbers. */
export function wavyProblem(seed: string, kinds: number, pieces: number, turns: TurnRule = 'quarter'): NestProblem {
  const random = seedrandom(seed);
  const parts = Array.from({ length: kinds }, (_, i) => {
    const quantity = Math.floor(pieces / kinds) + (i < pieces % kinds ? 1 : 0);
    return nestPart(`p${i}`, wavyRegion(random, 8 + 45 * random() * random(), 90), { quantity, turns });
  });
  return nestProblem(parts, [boardStock(508, 305)]);
}

/** Anything a job may ask for, all at once: odd boards, flaws, holes, grain, groups, mirrors, a small bed. */
export function randomNestProblem(seed: string): NestProblem {
  const random = seedrandom(seed);
  const whole = (from: number, to: number) => from + Math.floor(random() * (to - from + 1));
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const turnRules: readonly TurnRule[] = ['fixed', 'half', 'quarter', 'any', { stepDeg: 45 }];
  const hasGroups = random() < 0.25;
  const parts = Array.from({ length: whole(1, 6) }, (_, i) => {
    const quantity = whole(1, 4);
    const region = pick([
      () => boxRegion(whole(10, 80), whole(5, 60)),
      () => wavyRegion(random, 5 + 30 * random(), whole(12, 60)),
      () => frameRegion(whole(40, 90), whole(40, 90), whole(4, 12)),
      () => ({ outer: Float64Array.of(0, 0, whole(30, 90), 0, 0, whole(20, 70)), holes: [] }),
    ])();
    return nestPart(`p${i}`, region, {
      quantity,
      turns: pick(turnRules),
      mayMirror: random() < 0.3,
      keepsGrain: random() < 0.3,
      groups: hasGroups && i < 2 ? Array.from({ length: quantity }, (_, k) => `kit ${k}`) : [],
    });
  });
  const stock = Array.from({ length: whole(1, 3) }, (_, i): Stock => {
    const width = whole(100, 260);
    const height = whole(80, 200);
    const cut = whole(10, 40);
    const isOdd = random() < 0.3;
    return {
      id: `board ${i}`,
      // an offcut with a corner missing, and a hole in it now and then
      outline: isOdd
        ? {
            outer: Float64Array.of(0, 0, width, 0, width, height - cut, width - cut, height, 0, height),
            holes: random() < 0.5 ? [Float64Array.of(40, 40, 40, 55, 60, 55, 60, 40)] : [],
          }
        : boxRegion(width, height),
      count: random() < 0.3 ? whole(1, 2) : null,
      price: whole(0, 9),
      forbidden: random() < 0.3 ? [boxRegion(15, 15, whole(0, width - 15), whole(0, height - 15))] : [],
      hasGrain: random() < 0.3,
    };
  });
  if (random() < 0.25) {
    const bed = { width: whole(70, 200), height: whole(60, 160) };
    const side = (length: number, reach: number) =>
      reach >= length
        ? [{ from: 0, to: length }]
        : Array.from({ length: Math.ceil(length / reach) }, (_, k) => {
            const from = Math.min(k * reach, length - reach);
            return { from, to: from + reach };
          });
    stock.forEach((entry, index) => {
      const { minX, minY, maxX, maxY } = regionBounds(entry.outline);
      stock[index] = {
        ...entry,
        reach: { columns: side(maxX - minX, bed.width), rows: side(maxY - minY, bed.height) },
      };
    });
  }
  return nestProblem(parts, stock, {
    spacing: pick([0, 0.5, 2, 3]),
    margin: pick([0, 1, 5]),
    aim: pick(['fewest-boards', 'cheapest']),
    // biome-ignore lint/suspicious/noThenProperty: as above
    then: pick(['largest-offcut', 'shortest-cutting']),
  });
}

function frameRegion(width: number, height: number, rim: number): Region {
  const hole = Float64Array.of(rim, rim, rim, height - rim, width - rim, height - rim, width - rim, rim);
  return { outer: boxRegion(width, height).outer, holes: [hole] };
}
