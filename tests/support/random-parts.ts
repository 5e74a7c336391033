import type { Region } from '@underlap/geometry/region';
import { checkLayout } from '@underlap/nest/check/check-layout';
import type { Layout, NestProblem } from '@underlap/nest/problem';
import { seededRandom } from '@underlap/nest/search/random';
import type { SearchItem, Spot } from '@underlap/nest/search/task';

/** Height of the boards and strips that `verdictOn` checks. */
export const HEIGHT = 60;

/** Random concave parts with copies: the same parts as search forms and as a nesting problem for the independent check. */
export function randomParts(seed: string, kinds: number, quantity: number) {
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
  const forms: Region[] = rings.map((outer) => ({ outer, holes: [] }));
  const items: SearchItem[] = rings.flatMap((_, form) => {
    const poses = [0, 90, 180, 270].map((turnDeg) => ({ form, turnDeg }));
    return Array.from({ length: quantity }, () => ({ poses }));
  });
  return { forms, items, rings };
}

/** The independent check's word on places of `quantity` copies of each part. */
export function verdictOn(
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
