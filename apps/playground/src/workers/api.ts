import type { Point } from '@underlap/geometry/point';
import type { BatchRow } from '@underlap/job/batch-study';
import type { Job } from '@underlap/job/document';
import type { PackBed } from '@underlap/job/pack/plan-packs';
import type { FoundLayout } from '@underlap/job/pipeline';
import type { LeftOnShelf, Shelf } from '@underlap/job/shelf';
import type { PriceRow } from '@underlap/shop/price';
import type { KnownKeys, WorkEvent } from './events.ts';
import type { BoardsView, PlacementView, RunFigures } from './views.ts';

/** A seam as it would be if its middle were taken to another place. */
export interface SeamPreview {
  readonly d: string;
  readonly visible: readonly string[];
  readonly lengthMm: number;
  readonly hiddenShare: number;
  /** Share that a part glued on it would hold. */
  readonly heldShare: number;
  /** Does each of the two sides still fit the bed under some turn? */
  readonly fits: readonly [boolean, boolean];
}

/** What the planner would make of a seam that a hand has let go. */
export interface SettledSeam {
  /** The plan to take; null = the planner's first. */
  readonly planId: string | null;
  /** Does it run where the hand drew it? Else it must be asked for. */
  readonly isAsDrawn: boolean;
  readonly pieces: number;
  readonly lines: readonly string[];
  readonly visible: readonly string[];
  readonly visibleLengthMm: number;
  readonly heldShare: number;
}

/** What a hand finds when it holds a piece over a sheet. */
export interface TouchAnswer {
  readonly isFree: boolean;
  /** What is in the way; null when free. */
  readonly why:
    | { readonly kind: 'no-sheet' | 'off-board' | 'forbidden' }
    | { readonly kind: 'piece'; readonly id: string }
    | null;
  /** The nearest free place found, null when there is none near. */
  readonly nearest: Point | null;
}

export interface TouchQuestion {
  readonly sheet: number;
  readonly placement: PlacementView;
}

/** What of a shelf saves a job a board. */
export interface ShelfHelp {
  /** What becomes of the job; null = it stays as it is. */
  readonly take: Pick<Job, 'offcuts' | 'stocks' | 'aim'> | null;
  readonly used: readonly string[];
  readonly left: readonly LeftOnShelf[];
  readonly boardsWith: number;
  readonly boardsWithout: number;
}

/** All rows of a study of batches so far, and what a sign costs and sells at in each. */
export type TellBatches = (rows: readonly BatchRow[], prices: readonly PriceRow[]) => void;

/** A layout beside the one on the page, with what it costs. */
export interface LaidOut {
  readonly boards: BoardsView;
  readonly run: RunFigures;
}

export interface FileContent {
  readonly name: string;
  readonly mime: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** What the page asks of its worker. Every call may fail with a fault (see fault.ts). */
export interface WorkbenchApi {
  /** Answers at once when the worker is not deep in work. */
  ping(): Promise<true>;
  /** A job for new artwork: the conditions of `like` where they do not belong to its artwork, else defaults. */
  newJob(text: string, name: string, like: Job | null): Promise<Job>;
  /** A saved job file, checked and raised to the current version. */
  readJob(text: string, artworkText: string | null): Promise<Job>;
  /** Work through a job and show the design that is looked at (null = the first); another call or `cancel` ends this one. Resolves when all stages are done or one failed. */
  plan(
    job: Job,
    known: KnownKeys,
    found: FoundLayout | null,
    tell: (event: WorkEvent) => void,
    looksAt: string | null,
  ): Promise<void>;
  /** End the running search and go on with the best layout so far. */
  stopSearch(): Promise<void>;
  /** Give up the layout kept for this job, so that the next plan searches again. */
  forgetLayout(job: Job): Promise<void>;
  /** End everything that runs. */
  cancel(): Promise<void>;
  /** The layout of a changed job, beside the one on the page. */
  layOut(job: Job): Promise<LaidOut>;
  /** Boards by batch size; `tell` gets all rows so far, each time one has been added. */
  batches(job: Job, sizes: readonly number[], tell: TellBatches): Promise<void>;
  /** End what `layOut`, `batches` and `packs` are at; the plan on the page goes on. */
  stopTrying(): Promise<void>;
  previewSeam(partId: string, seamId: string, to: Point): Promise<SeamPreview | null>;
  /** What would become of the part if that seam were led through `to` and its seams through all `pins`; takes as long as a split. */
  settleSeam(partId: string, seamId: string, to: Point, pins: readonly Point[]): Promise<SettledSeam | null>;
  touch(question: TouchQuestion): Promise<TouchAnswer>;
  /** One file of the last plan, after the independent check of the layout it was written from. */
  file(name: string): Promise<FileContent>;
  /** The coupon for kerf and fit, in the formats and with the stock of the job planned last, as one archive. */
  coupon(): Promise<FileContent>;
  /** Packs of a job for several beds in one archive, beside the plan on the page; `tell` is called as each bed is begun. */
  packs(job: Job, beds: readonly PackBed[], tell: (bed: number) => void): Promise<FileContent>;
  /** A shelf file, checked; null = a new, empty one. */
  openShelf(text: string | null, name: string): Promise<Shelf>;
  /** Lay a job out with the shelf and without, beside the plan on the page. */
  shelfHelp(job: Job, shelf: Shelf): Promise<ShelfHelp>;
  /** The shelf once the job planned last is cut, and its file. */
  bookShelf(shelf: Shelf, name: string): Promise<{ readonly shelf: Shelf; readonly file: FileContent }>;
  /** All files in one archive. */
  archive(): Promise<FileContent>;
}
