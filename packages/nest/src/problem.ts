import type { Shape } from '@underlap/geometry/curve';
import type { Region } from '@underlap/geometry/region';

/** Which turns a piece may take, degrees from its own frame. 'any' is free rotation. */
export type TurnRule = 'fixed' | 'half' | 'quarter' | 'any' | { readonly stepDeg: number };

/** A kind of piece to be placed `quantity` times. Its region is what is cut (kerf already applied), mm, in its own frame. */
export interface NestPart {
  readonly id: string;
  readonly region: Region;
  /** The exact cut outline of the same piece (arcs, Beziers) for the independent check; null = the region is exact. */
  readonly outline: Shape | null;
  readonly quantity: number;
  readonly turns: TurnRule;
  /** May be turned over (cut from the back). */
  readonly mayMirror: boolean;
  /** Keeps the grain: only turns of 0 and 180 degrees against the board's grain (x) survive. */
  readonly keepsGrain: boolean;
  /** For copy i, copies with the same group name must share a sheet; null = anywhere. Length = quantity, or empty. */
  readonly groups: readonly string[];
}

/** Boards of one kind, or one offcut. Its outline lies with the lower left of its bounding box at 0, 0. */
export interface Stock {
  readonly id: string;
  readonly outline: Region;
  /** How many there are; null = as many as needed. */
  readonly count: number | null;
  /** Price of one, in the shop's currency; 0 for offcuts on hand. */
  readonly price: number;
  /** Flaws, clamps, knots: nothing may lie there (kept at spacing, not margin). */
  readonly forbidden: readonly Region[];
  /** Has a grain along x. */
  readonly hasGrain: boolean;
}

/** What the machine reaches of a board at one loading; null = whole board. */
export interface ReachableWindow {
  readonly width: number;
  readonly height: number;
}

export interface NestRules {
  /** Least distance between pieces. */
  readonly spacing: number;
  /** Least distance to the stock's edge. */
  readonly margin: number;
  readonly bed: ReachableWindow | null;
  readonly aim: 'fewest-boards' | 'cheapest';
  readonly then: 'largest-offcut' | 'shortest-cutting';
}

/** A piece the user has put somewhere: it stays. */
export interface Pinned {
  readonly pieceId: string;
  readonly sheet: number;
  readonly stockId: string;
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
  readonly mirrored: boolean;
}

export interface NestProblem {
  readonly parts: readonly NestPart[];
  readonly stock: readonly Stock[];
  readonly rules: NestRules;
  readonly pinned: readonly Pinned[];
}

/** One piece on one sheet: mirror (x -> -x) when asked, turn about the frame's origin, then move by x, y. */
export interface Placement {
  /** `${partId}#${copy}` with copy from 1. */
  readonly pieceId: string;
  readonly partId: string;
  readonly copy: number;
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
  readonly mirrored: boolean;
}

export interface Sheet {
  readonly stockId: string;
  readonly width: number;
  readonly height: number;
  readonly placements: readonly Placement[];
  /** Windows of the bed on this board, lower left corners, when the bed is smaller than the board. */
  readonly windows: readonly { readonly x: number; readonly y: number; readonly pieceIds: readonly string[] }[];
  /** Area of pieces / area of the board. */
  readonly yield: number;
  /** Largest reusable offcut left on it, when one was computed. */
  readonly offcut: Region | null;
}

export interface Layout {
  readonly sheets: readonly Sheet[];
  /** Pieces that fit on no board, with the reason. */
  readonly unplaced: readonly { readonly pieceId: string; readonly why: string }[];
  readonly yield: number;
}

export interface BoardBound {
  readonly boards: number;
  /** Which argument proves it. */
  readonly by: 'area' | 'exclusion' | 'dual-feasible';
}

/** Quick = bottom-left-fill alone; others count units of search work. */
export type Effort = 'quick' | 'normal' | 'thorough' | number;

export interface NestResult {
  readonly layout: Layout;
  readonly lowerBound: BoardBound;
  readonly isProvedMinimal: boolean;
  readonly endedBy: 'budget' | 'proved' | 'cancelled' | 'time';
  readonly workUnits: number;
}

/** The independent verdict on a layout. */
export interface Verdict {
  readonly ok: boolean;
  /** Least distance found between two pieces, and between a piece and the usable edge's board outline, mm. */
  readonly smallestGapMm: number;
  readonly smallestMarginMm: number;
  readonly violations: readonly Violation[];
}

export interface Violation {
  readonly kind:
    | 'overlap'
    | 'spacing'
    | 'margin'
    | 'outside'
    | 'forbidden'
    | 'missing'
    | 'extra'
    | 'turn'
    | 'mirror'
    | 'group'
    | 'window'
    | 'stock'
    | 'pinned';
  readonly pieceIds: readonly string[];
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly amountMm: number;
  readonly message: string;
}
