import type { Shape } from '@underlap/geometry/curve';
import type { Region } from '@underlap/geometry/region';
import type { CopyRef } from './copy.ts';

/** Which turns a piece may take, degrees from its base turn. 'any' is free rotation. */
export type TurnRule = 'fixed' | 'half' | 'quarter' | 'any' | { readonly stepDeg: number };

/** A shape to be placed `quantity` times. Its region is what is cut (kerf already applied), mm, in its own frame. */
export interface NestPiece {
  readonly id: string;
  readonly region: Region;
  /** The exact cut outline of the same piece (arcs, Beziers) for the independent check; null = the region is exact. */
  readonly outline: Shape | null;
  readonly quantity: number;
  readonly turns: TurnRule;
  /** Turn that the rule counts from, degrees: some pieces fit a board only askew. Turned over, it counts backwards. */
  readonly baseTurnDeg: number;
  /** May be turned over (cut from the back). */
  readonly mayMirror: boolean;
  /** Keeps the grain: only turns of 0 and 180 degrees of its own frame against the board's grain (x) survive. */
  readonly keepsGrain: boolean;
  /** The group of each copy: copies with the same name must share a sheet. Length = quantity, or empty = anywhere. */
  readonly groups: readonly string[];
}

/** Boards of one kind, or one offcut. Its outline lies with the upper left of its bounding box at 0, 0; y down. */
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
  /** Where pieces may lie when the stock is cut in several loadings; left out = all of it in one. */
  readonly reach?: StockReach;
}

/** A stretch of one axis, mm. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * What the machine reaches of a board, loading by loading: every piece lies wholly in one column and one row. Spans ascend; they
 * may overlap where one loading reaches into the next, or leave a gap where the board is cut apart first.
 */
export interface StockReach {
  readonly columns: readonly Span[];
  readonly rows: readonly Span[];
}

export interface NestRules {
  /** Least distance between pieces. */
  readonly spacing: number;
  /** Least distance to the stock's edge. */
  readonly margin: number;
  readonly aim: 'fewest-boards' | 'cheapest';
  readonly then: 'largest-offcut' | 'shortest-cutting';
}

/** A copy the user has put somewhere: it stays. */
export interface Pinned extends Placement {
  /** From 0. */
  readonly sheet: number;
  readonly stockId: string;
}

export interface NestProblem {
  readonly pieces: readonly NestPiece[];
  readonly stock: readonly Stock[];
  readonly rules: NestRules;
  readonly pinned: readonly Pinned[];
}

/** One copy on one sheet: mirror (x -> -x) when asked, turn about the origin of the piece's own frame, then move by x, y. */
export interface Placement extends CopyRef {
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
  readonly mirrored: boolean;
}

/** One column and row of a stock's reach, and the pieces that are cut while it is loaded. Corner nearest the origin, mm. */
export interface SheetWindow {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly copies: readonly CopyRef[];
}

export interface Sheet {
  readonly stockId: string;
  readonly width: number;
  readonly height: number;
  readonly placements: readonly Placement[];
  /** The loadings of this board that hold pieces, when its stock has a reach; else empty. */
  readonly windows: readonly SheetWindow[];
  /** Area of pieces / area of the board. */
  readonly yield: number;
  /** Largest reusable offcut left on it, when one was computed. */
  readonly offcut: Region | null;
}

export interface Layout {
  readonly sheets: readonly Sheet[];
  /** Copies that fit on no board, with the reason. */
  readonly unplaced: readonly (CopyRef & { readonly why: string })[];
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
  /** The copies that are at fault. */
  readonly copies: readonly CopyRef[];
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly amountMm: number;
  readonly message: string;
}
