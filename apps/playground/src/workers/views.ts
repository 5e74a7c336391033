import type { Complaint, PhysicalSize, Process, Repair } from '@underlap/artwork/drawing';
import type { Point } from '@underlap/geometry/point';
import type { Bounds } from '@underlap/geometry/ring';
import type { BoardBound, NestResult, Verdict } from '@underlap/nest/problem';
import type { SeamRemark } from '@underlap/seam/task';
import type { StackMatch } from '@underlap/stack/sign';
import type { SupportFault } from '@underlap/stack/support';
import type { Use } from '@underlap/stack/usage';

/**
 * What the worker tells the page about each stage: light, plain data ready to be drawn. Outlines are SVG path data in mm,
 * y down, so that a whole drawing crosses the boundary as a few strings.
 */

/** Where a shape lies: mirror (x -> -x) when asked, turn by degrees, then move, mm. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
  readonly mirrored: boolean;
}

/** The stages as a maker sees them: one picture on the strip each. */
export type StageId = 'artwork' | 'stack' | 'split' | 'boards' | 'files';
export const STAGES: readonly StageId[] = ['artwork', 'stack', 'split', 'boards', 'files'];

export interface MarkView {
  readonly d: string;
  readonly process: Exclude<Process, 'cut'>;
}

export interface PartView {
  readonly id: string;
  readonly name: string;
  readonly layer: string | null;
  readonly paint: string | null;
  readonly d: string;
  readonly box: Bounds;
  readonly areaMm2: number;
  readonly holes: number;
  readonly isAssembled: boolean;
  /** Where the drawing has it, as complaints name it. */
  readonly drawnAt: string;
  readonly marks: readonly MarkView[];
}

export interface ArtworkView {
  readonly name: string;
  readonly format: 'svg' | 'dxf';
  readonly mode: 'stacked' | 'spread';
  readonly size: PhysicalSize;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly parts: readonly PartView[];
  /** What colours and layers were taken for. */
  readonly uses: readonly Use[];
  readonly repairs: readonly Repair[];
  readonly complaints: readonly Complaint[];
  readonly matches: readonly StackMatch[];
}

/** A part in the stack: how high it lies, what it is glued to, and how much of it the parts above hide. */
export interface LayerView {
  readonly partId: string;
  /** 0 = lies on nothing; else one more than the part it rests on. */
  readonly level: number;
  /** Height of its underside above the ground, mm. */
  readonly bottomMm: number;
  readonly thicknessMm: number;
  /** What it rests on, bottom first, with the area of glue. */
  readonly gluedTo: readonly { readonly partId: string; readonly areaMm2: number }[];
  /** Ids of the parts glued on it, bottom first. */
  readonly carries: readonly string[];
  /** Ids of the parts that hide some of it, glued on it or higher, bottom first. */
  readonly coveredBy: readonly string[];
  /** Share of its face that the parts above hide, 0..1; null = not worked out yet. */
  readonly hiddenShare: number | null;
  readonly guides: readonly string[];
  /** What is wrong with the way it rests; null = nothing. */
  readonly fault: SupportFault | null;
  /** Outlines of what could be put below it where it hangs in the air; empty when nothing is needed. */
  readonly fillers: readonly string[];
}

export interface StackView {
  /** Height of the whole sign, mm. */
  readonly heightMm: number;
  readonly layers: readonly LayerView[];
  /** Cuts through the sign from left to right, top first. */
  readonly sections: readonly SectionView[];
}

/** A cut through the sign: what of each part lies on it. */
export interface SectionView {
  /** Where it is cut, mm. */
  readonly y: number;
  readonly spans: readonly { readonly partId: string; readonly from: number; readonly to: number }[];
}

export interface SeamView {
  readonly id: string;
  /** Letters burnt on both sides; empty while its plan is not taken. */
  readonly label: string;
  readonly between: readonly [string, string];
  readonly d: string;
  /** The stretches that show, as open path data. */
  readonly visible: readonly string[];
  readonly lengthMm: number;
  readonly hiddenLengthMm: number;
  /** Held by what is glued on it, and by plates when they are on, mm. */
  readonly heldLengthMm: number;
  readonly knobs: number;
  readonly neckMm: number;
  /** Middle of the seam: where a hand takes it. */
  readonly handle: Point;
}

export interface PlanView {
  readonly id: string;
  readonly merits: readonly string[];
  readonly pieces: readonly {
    readonly id: string;
    readonly number: string;
    readonly d: string;
    readonly box: Bounds;
  }[];
  readonly seams: readonly SeamView[];
  readonly visibleLengthMm: number;
  readonly lengthMm: number;
  readonly leastNeckMm: number;
  readonly balance: number;
  /** Held by what is glued on top alone, and with the plates too, mm. */
  readonly heldByGlueMm: number;
  readonly heldWithPlatesMm: number;
  /** Rear plates that hold what nothing on top holds. */
  readonly plates: readonly string[];
  /** Are they cut? */
  readonly isPlated: boolean;
  readonly remarks: readonly SeamRemark[];
}

export interface PartSplitView {
  readonly partId: string;
  /** Its number in the sign; pieces have a letter beside it. */
  readonly number: string;
  readonly kind: 'fits' | 'split' | 'cannot';
  /** Turn at which a part that fits does so, degrees. */
  readonly limitTurnDeg: number;
  readonly why: SeamRemark | null;
  readonly plans: readonly PlanView[];
  readonly chosenPlanId: string | null;
  readonly piecesLowerBound: number;
  readonly isProvenFewest: boolean;
}

export interface SplitView {
  /** How far what hides a seam has to reach over it on either side, mm. */
  readonly landingMm: number;
  readonly parts: readonly PartSplitView[];
  readonly limits: readonly { readonly name: string; readonly width: number; readonly height: number }[];
}

/** One kind of piece as it is cut, in its own frame. */
export interface KindView {
  readonly pieceId: string;
  /** Burnt on it, in the report and in the files: "7" or "7a". */
  readonly number: string;
  readonly partId: string;
  /** Design and order it is for; empty in a job of one artwork. */
  readonly design: string;
  readonly order: string;
  readonly name: string;
  readonly layer: string | null;
  readonly paint: string | null;
  readonly d: string;
  readonly marks: readonly string[];
  readonly box: Bounds;
  /** As drawn, before kerf. */
  readonly areaMm2: number;
}

export interface PlacementView extends Spot {
  /** `piece#sign`. */
  readonly id: string;
  readonly pieceId: string;
  readonly sign: number;
}

/** One set-up of a board on the bed: what one file cuts. */
export interface LoadingView {
  /** From 1, in the order they are cut. */
  readonly number: number;
  /** 'moved': the board is moved between loadings. 'panels': it is sawn apart first. */
  readonly kind: 'moved' | 'panels';
  /** What of the board it shows, mm in the board's frame. */
  readonly page: Bounds;
  /** Is the file turned by a quarter, clockwise, to lie within the bed? */
  readonly isTurned: boolean;
  /** Ids of the placements cut in it. */
  readonly placements: readonly string[];
  /** How the board moves from the loading before, mm as seen on the machine (x right, y down); null for the first and for panels. */
  readonly move: Point | null;
  /** Where the board's left and upper edge lie on the machine, mm from the file's corner; negative = left of it and above it. */
  readonly stop: Point;
}

export interface SheetView {
  /** Board or offcut. */
  readonly stockId: string;
  /** Stock that it is of; empty in a job without a list of stocks. */
  readonly material: string;
  readonly outline: string;
  readonly width: number;
  readonly height: number;
  readonly placements: readonly PlacementView[];
  /** One after the other; empty for a board that lies whole on the bed. */
  readonly loadings: readonly LoadingView[];
  readonly yield: number;
  readonly offcut: { readonly d: string; readonly areaMm2: number } | null;
}

/** One layout with what is known of how good it is. */
export interface BoardsView {
  readonly kinds: readonly KindView[];
  readonly sheets: readonly SheetView[];
  readonly unplaced: readonly { readonly pieceId: string; readonly why: string }[];
  readonly yield: number;
  readonly lowerBound: BoardBound;
  readonly isProvedMinimal: boolean;
  readonly endedBy: NestResult['endedBy'] | 'running';
  readonly workUnits: number;
  readonly verdict: Verdict | null;
}

export interface FileView {
  readonly name: string;
  readonly bytes: number;
  readonly kind: 'sheet' | 'report' | 'picture';
  /** Of a sheet file: the sheet of the layout it shows, from 0. */
  readonly sheet: number | null;
  /** How often it is cut. */
  readonly times: number;
  /** Of a sheet file: which loading of its board it is, from 1. */
  readonly loading: number | null;
}

/** Cost and machine time of a layout. */
export interface RunFigures {
  readonly costPerSign: number;
  readonly currency: string;
  /** Of the whole batch. */
  readonly machineSeconds: number;
}

export interface FilesView {
  readonly files: readonly FileView[];
  readonly verdict: Verdict;
  /** Sheet files that the bed cannot hold; empty when all is well. */
  readonly tooLarge: readonly string[];
  readonly messages: readonly string[];
  readonly cautions: readonly string[];
  readonly costPerSign: number;
  readonly pricePerSign: number;
  readonly currency: string;
  readonly machineSeconds: number;
}

export interface StageViews {
  readonly artwork: ArtworkView;
  readonly stack: StackView;
  readonly split: SplitView;
  readonly boards: BoardsView;
  readonly files: FilesView;
}
