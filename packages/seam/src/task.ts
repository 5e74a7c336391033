import type { Contour, Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import type { KnobKind, KnobWish } from './knob-kinds.ts';

/** A rectangle a piece must fit in under some turn; `length` Infinity means material passes through in that direction. */
export interface Limit {
  readonly name: 'bed' | 'board';
  readonly width: number;
  readonly height: number;
  /** What was taken off all round for a margin, mm; told when it is what limits a part. */
  readonly margin?: number;
}

/** Everything that seam planning knows; a sign, a bed and a board are the caller's business. mm. */
export interface SeamTask {
  readonly id: string;
  /** Exact face; lines, arcs and cubics survive the split. */
  readonly shape: Shape;
  /** The same, flattened. */
  readonly region: Region;
  /** What lies on top, united, not yet eroded. */
  readonly cover: readonly Region[];
  /** The covering parts one by one, for hints that name them. */
  readonly coverParts?: readonly CoverPart[];
  /**
   * Faces of parts that touch this part's top and are glued to it, one entry a part: two neighbours do not bridge a seam, so they
   * are not united. Empty when nothing is glued on.
   */
  readonly glue: readonly GlueFace[];
  /** Areas no seam or knob may enter (beyond the part's own holes and edge, which are kept out anyway). */
  readonly keepOuts: readonly Region[];
  /** Lines to stay away from where possible: the seams of the layer below. Flat x0, y0, x1, y1, ... open polylines. */
  readonly avoid: readonly Ring[];
  /** The part's own scored or engraved lines, flat open polylines: followed as plank joints that show nothing new, or kept away from. */
  readonly marks?: readonly Ring[];
  /** Every piece, grown by half the kerf, must fit each of these under some turn. */
  readonly limits: readonly Limit[];
  readonly thickness: number;
  readonly kerf: number;
  /** Gap between mating edges after cutting; negative = press fit. */
  readonly fit: number;
  /** How far the cover must reach beyond the seam and its knobs. */
  readonly landing: number;
  readonly wishes: SeamWishes;
}

/** One of the parts glued on top. */
export interface CoverPart {
  readonly id: string;
  readonly name: string;
  readonly region: Region;
}

/** Where one part is glued to the top of this one; in this part's frame, mm. */
export interface GlueFace {
  readonly partId: string;
  readonly region: Region;
}

/** What the user asks for beyond the defaults. */
export interface SeamWishes {
  readonly prefer: 'fewest' | 'most-hidden' | 'strongest';
  /** Pieces to add to the fewest. */
  readonly morePieces: number;
  /**
   * Cut into at least so many pieces, also when the part fits as it is; 1 or nothing asks for no cut that is not needed. Where no
   * seam parts it further the plans have fewer, and a part that fits and cannot be parted is told to fit.
   */
  readonly leastPieces?: number;
  /** Seams must pass within 5 mm of these points where a plan can do so. */
  readonly pins: readonly Point[];
  readonly forbidden: readonly Region[];
  readonly knob: KnobWish;
  /** Which drawn lines may lead a seam: the long straight ones (taken when nothing is said), all, or none. */
  readonly alongLines?: 'long' | 'all' | 'none';
}

export interface Knob {
  /** Distance along the seam, mm. */
  readonly at: number;
  readonly side: 1 | -1;
  readonly kind: KnobKind;
  readonly neck: number;
  readonly head: number;
  readonly centre: Point;
}

/** One cut line between two pieces, its knobs included. */
export interface Seam {
  readonly id: string;
  /** Ids of the pieces on both sides (left of the direction of travel first). */
  readonly between: readonly [string, string];
  /** The cut as exact lines and arcs, open. */
  readonly path: Contour;
  /** The smooth line below the knobs. */
  readonly spine: Contour;
  readonly lengthMm: number;
  readonly hiddenLengthMm: number;
  /** Stretches of `path` that show, as [from, to] in mm along it. */
  readonly visible: readonly (readonly [number, number])[];
  /** Length that no cover hides but that runs along a drawn line, and so shows nothing new; at most what shows. */
  readonly ledLengthMm: number;
  /** Length over which one glued part spans the seam, with the landing on both sides; at most `lengthMm`. */
  readonly heldLengthMm: number;
  /** Stretches of `path` that are held, as [from, to] in mm along it. */
  readonly held: readonly (readonly [number, number])[];
  readonly knobs: readonly Knob[];
  /** Least neck of its knobs; 0 without knobs. */
  readonly neckMm: number;
}

/** What a part becomes; in the part's frame, before kerf. */
export interface SplitPiece {
  readonly id: string;
  readonly shape: Shape;
  readonly region: Region;
  /** Turn at which the piece, grown by half the kerf, fits each limit, degrees. */
  readonly limitTurnDeg: Readonly<Record<Limit['name'], number>>;
  /** Where each segment of each contour (outer, then holes) comes from: a seam, or the part's own outline. */
  readonly edges: readonly (readonly EdgeOrigin[])[];
}

/** Id of the seam that a segment belongs to, or null on the part's own outline. */
export type EdgeOrigin = string | null;

/** A whole way to split one part. */
export interface SplitPlan {
  readonly id: string;
  /** Why it is offered. */
  readonly merits: readonly ('fewest' | 'most-hidden' | 'strongest')[];
  readonly pieces: readonly SplitPiece[];
  /** Is it proven that no plan can have fewer pieces? */
  readonly provenFewest: boolean;
  readonly seams: readonly Seam[];
  readonly visibleLengthMm: number;
  /** How much of what shows runs along drawn lines. */
  readonly ledLengthMm: number;
  /** Length of seam that lies below the cover, and that glued parts hold. */
  readonly hiddenLengthMm: number;
  readonly heldLengthMm: number;
  readonly leastNeckMm: number;
  /** Area of the smallest piece / area of an even share, 0..1. */
  readonly balance: number;
  /** Rear splice plates proposed for stretches that nothing holds, in the part's frame. */
  readonly plates: readonly Region[];
  readonly remarks: readonly SeamRemark[];
}

export interface SeamRemark {
  readonly code: string;
  readonly message: string;
  readonly at: Point | null;
}

export type SeamOutcome =
  | { readonly kind: 'fits'; readonly limitTurnDeg: Readonly<Record<Limit['name'], number>> }
  | {
      readonly kind: 'split';
      /** Best first by the user's preference; never empty. */
      readonly plans: readonly SplitPlan[];
      /** No plan can have fewer pieces. */
      readonly piecesLowerBound: number;
    }
  | { readonly kind: 'cannot'; readonly why: SeamRemark };
