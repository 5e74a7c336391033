import type { Drawing } from '@underlap/artwork/drawing';
import type { ContourSpan } from '@underlap/geometry/contour-gaps';
import type { Contour, Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import type { Layout, NestProblem, NestResult, Verdict } from '@underlap/nest/problem';
import type { Limit, SeamOutcome, SplitPlan } from '@underlap/seam/task';
import type { Mark, Sign } from '@underlap/stack/sign';
import type { Design } from './designs.ts';
import type { Job } from './document.ts';
import type { Report } from './report-schema.ts';

/**
 * What the stages hand to one another. Every value is plain data, so a worker can post it and a cache can key it by content.
 *
 * Frames. A *piece's frame* is the assembled sign's: millimetres, y down, as the artwork is drawn. A placement moves a piece
 * from its frame onto a sheet: mirror (x -> -x) when asked, turn by `turnDeg` about the frame's origin (from +x towards +y,
 * clockwise as seen on the screen), then move by x, y. A *sheet's frame* has its origin at the board's upper left corner,
 * y down, as in the written SVG.
 */

/** One piece in the assembled sign, before kerf. An unsplit part is one piece with the part's id. */
export interface Piece {
  readonly id: string;
  readonly partId: string;
  readonly shape: Shape;
  readonly region: Region;
  /** Turn at which it fits the bed and the board, degrees from its frame. */
  readonly limitTurnDeg: Readonly<Record<Limit['name'], number>>;
}

/** A rear splice plate: a part of its own that is cut from the stock of the part it joins. */
export interface Plate extends Piece {
  readonly ofPartId: string;
}

/** What became of one part. */
export interface PartSplit {
  readonly partId: string;
  readonly outcome: SeamOutcome;
  /** The plan taken of `outcome.plans`; null when the part fits or cannot be split. */
  readonly plan: SplitPlan | null;
  /** Empty when the part cannot be made to fit. */
  readonly pieces: readonly Piece[];
}

/** What the split stage returns: parts bottom first, rear plates as further pieces. */
export interface SplitResult {
  readonly parts: readonly PartSplit[];
  readonly limits: readonly Limit[];
  readonly plates: readonly Plate[];
}

/** A line burnt on one piece, in the piece's frame. */
export interface PieceMark {
  readonly kind: 'drawn' | 'guide' | 'number' | 'seam-label';
  readonly process: Mark['process'];
  readonly contours: readonly Contour[];
  /** What it says or stands for, for reports. */
  readonly label: string | null;
}

/** A piece as the machine cuts it: kerf and fit applied once. */
export interface CutPiece extends Piece {
  /** The line the beam's centre follows. */
  readonly cutShape: Shape;
  readonly cutRegion: Region;
  readonly marks: readonly PieceMark[];
  /** Stretches of the outline of `cutShape` that are left uncut. */
  readonly bridges: readonly ContourSpan[];
  /** Is `cutShape` the drawn contour itself (not offset)? */
  readonly isAsDrawn: boolean;
  /** The turn that the nester sees as 0: a piece may fit a board only askew. */
  readonly baseTurnDeg: number;
  /** "7", or "7a" for a piece of a split part: what is burnt on it and written in reports. */
  readonly number: string;
  /** The roomiest point of its face, for a number in pictures. */
  readonly centre: Point;
  /** Stock that it is cut from; empty in a job without a list of stocks. */
  readonly stockId: string;
}

/** A piece among those of all designs of a job: its id is unique there ("lighthouse/backer.a"). */
export interface JobPiece extends CutPiece {
  /** Its id within its design. */
  readonly ownId: string;
  readonly design: Design;
  /** Signs of the design that it is still to be cut for, from 1, rising. */
  readonly signs: readonly number[];
}

/** Everything that is made from one design. */
export interface DesignResult {
  readonly design: Design;
  readonly drawing: Drawing;
  readonly sign: Sign;
  readonly split: SplitResult;
  readonly pieces: readonly CutPiece[];
  readonly splitsProven: true;
}

/** What lies on the boards of one stock. */
export interface StockLayout {
  readonly stockId: string;
  /** The job as if this stock were its only one. */
  readonly job: Job;
  readonly pieces: readonly JobPiece[];
  /** Copies as the nester counts them: 1, 2, ... of each piece. */
  readonly nested: NestStageResult;
  /** The same layout with the numbers of the signs as copies, as it is written and reported. */
  readonly layout: Layout;
}

/** The nester's answer, and the same layout with placements in the pieces' own frames. */
export interface NestStageResult {
  readonly problem: NestProblem;
  readonly result: NestResult;
  readonly layout: Layout;
}

/** All files by name, sheets first. */
export type FileSet = ReadonlyMap<string, string | Uint8Array>;

/** Everything a planned job leaves. `files` is empty when something does not fit. */
export interface JobResult {
  readonly designs: readonly DesignResult[];
  /** Null when a part cannot be made to fit. */
  readonly stocks: readonly StockLayout[] | null;
  /** One for each of `stocks`. */
  readonly verdicts: readonly Verdict[];
  readonly report: Report;
  readonly files: FileSet;
}
