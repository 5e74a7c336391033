import type { Region } from '@underlap/geometry/region';
import type { NoFitCache } from '../nfp/no-fit-cache.ts';

/** A way a piece may lie: which form, turned by how much about the form's origin. */
export interface Pose {
  readonly form: number;
  readonly turnDeg: number;
}

/** A piece to be placed. Identical pieces should share one `poses` array (same reference), which saves memory. */
export interface SearchItem {
  readonly poses: readonly Pose[];
  /** May take any turn: the listed poses are searched first, a finisher then turns pieces freely. Absent = false. */
  readonly isFreeToTurn?: boolean;
  /** Items with the same group name must lie on one board; null or absent = anywhere. */
  readonly group?: string | null;
}

/** A region where nothing may lie: flaws, clamps, pinned pieces, the outside of an offcut. */
export interface Obstacle {
  /** In the board's coordinates. */
  readonly region: Region;
  /** Distance that pieces keep from it, >= 0. */
  readonly clearance: number;
}

/** Where pieces may lie on one board: a rectangle (edge margin already taken off) less its obstacles. */
export interface SearchBoard {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  readonly obstacles: readonly Obstacle[];
  /** What using this board costs; the search empties dear boards first. Equal prices = fewest boards. */
  readonly price: number;
}

/** Where an item lies: the form of its poses[pose], turned by turnDeg about the form's origin, then moved by x, y. */
export interface Spot {
  readonly item: number;
  readonly board: number;
  readonly pose: number;
  /** The turn of that pose, or any turn of an item that is free to turn. */
  readonly turnDeg: number;
  readonly x: number;
  readonly y: number;
}

/** What all searches need. */
export interface SearchInput {
  /** Shapes that the search may place, in any frame and unit; a mirrored variant is a form of its own. */
  readonly forms: readonly Region[];
  readonly items: readonly SearchItem[];
  /** Least distance between two pieces, >= 0. */
  readonly spacing: number;
  /** Depth (penetration, or shortfall of spacing) that still counts as touching, > 0. */
  readonly tolerance: number;
}

/** Pieces on boards, as few (or as cheap) as possible. */
export interface BoardsInput extends SearchInput {
  /** Every board that may be used, one entry each, in the order in which they should be opened. */
  readonly boards: readonly SearchBoard[];
  /** Price that no layout can go below (a proven bound); the search ends when it is met. */
  readonly priceBound?: number;
}

/** When to stop. Work units are part-position evaluations, so that a seed gives one answer everywhere. */
export interface SearchBudget {
  readonly evaluations: number;
  /** Second, optional stop: share of the time allowed that has passed, 1 = over. Polled about every 8,000 evaluations. */
  readonly timeSpent?: () => number;
}

export interface SearchHooks {
  readonly seed: string | number;
  readonly signal?: AbortSignal;
  /** No-fit polygons kept from one search to the next in the same thread. */
  readonly noFits?: NoFitCache;
  /** Called with each better layout. */
  readonly onBetter?: (best: readonly Spot[], value: number, evaluations: number) => void;
  /** Called now and then with the share of the budget spent, 0..1, never going back. */
  readonly onProgress?: (done: number) => void;
}

export type SearchEnd = 'budget' | 'time' | 'cancelled' | 'bound' | 'settled';
