import type { Report } from './report-schema.ts';

/** One bed of a pack, as `variants.json` tells it. */
export interface Variant {
  /** "500x300", mm. */
  readonly bed: string;
  readonly folder: string;
  /** Pieces of one sign. */
  readonly pieces: number;
  readonly splitParts: readonly string[];
  readonly seamLengthMm: number;
  readonly visibleLengthMm: number;
  /** 1 when nothing is split. */
  readonly hiddenShare: number;
  /** 1 when nothing is split. */
  readonly heldShare: number;
  readonly boards: number;
  readonly boardsLowerBound: number;
  readonly yield: number;
  /** Why no cut files were written for this bed; empty when all is well. */
  readonly notFitting: readonly string[];
}

/** The line of one planned bed. */
export function variantOf(report: Report, folder: string): Variant {
  const seamLengthMm = report.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
  const hidden = report.seams.reduce((sum, seam) => sum + seam.hiddenLengthMm, 0);
  const held = report.seams.reduce((sum, seam) => sum + seam.heldLengthMm, 0);
  return {
    bed: `${report.bed.width}x${report.bed.height}`,
    folder,
    pieces: report.parts.reduce((sum, part) => sum + part.pieces, 0),
    splitParts: report.splits.map((split) => split.part),
    seamLengthMm,
    visibleLengthMm: Math.max(0, seamLengthMm - hidden),
    hiddenShare: seamLengthMm > 0 ? Math.min(1, hidden / seamLengthMm) : 1,
    heldShare: seamLengthMm > 0 ? Math.min(1, held / seamLengthMm) : 1,
    boards: report.boards,
    boardsLowerBound: report.boardsLowerBound,
    yield: report.yield,
    notFitting: report.notFitting.map((entry) => entry.message),
  };
}

/** The line of a bed for which nothing could be planned at all: there is no report to point at. */
export function unplannedVariant(
  bed: { readonly width: number; readonly height: number },
  folder: string,
  message: string,
): Variant {
  return {
    bed: `${bed.width}x${bed.height}`,
    folder,
    pieces: 0,
    splitParts: [],
    seamLengthMm: 0,
    visibleLengthMm: 0,
    hiddenShare: 0,
    heldShare: 0,
    boards: 0,
    boardsLowerBound: 0,
    yield: 0,
    notFitting: [message],
  };
}
