import { CUTTING_ORDER, type SheetDrawing, type SheetPath } from '@underlap/artwork/sheet-drawing';
import { transformContour } from '@underlap/geometry/contour';
import { contourWithGaps } from '@underlap/geometry/contour-gaps';
import { type Matrix, placementMatrix } from '@underlap/geometry/matrix';
import { copyName } from '@underlap/nest/copy';
import type { Layout, Placement } from '@underlap/nest/problem';
import type { Job } from './document.ts';
import { fileSlug } from './file-slug.ts';
import { cutPlan, intoFile, type Loading, loadingWords } from './loadings.ts';
import type { CutPiece, JobPiece, PieceMark } from './stages.ts';
import { wasteNumbers } from './waste-numbers.ts';

/** Largest distance between an offset contour and the arcs fitted to it, mm; stated in every file. */
const FIT_TOLERANCE_MM = 0.01;

/** One file to be written: its drawing, what it is called, and which boards it is cut for. */
export interface CutFile {
  /** Name without the ending. */
  readonly name: string;
  readonly drawing: SheetDrawing;
  readonly loading: Loading;
  /** The layout's sheets, from 0; the file is cut once for each. */
  readonly sheets: readonly number[];
}

/** One drawing per loading, equal boards once, every path in its place. `layout` is in the pieces' frames. */
export function cutFiles(layout: Layout, pieces: readonly JobPiece[], job: Job, jobName: string): CutFile[] {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const plan = cutPlan(layout.sheets, job);
  // Counted on from finished sheets, so that no file is called as one of theirs.
  const first = 1 + Math.max(0, ...job.done.map(({ number }) => number));
  const last = first + plan.length - 1;
  const digits = Math.max(2, String(last).length);
  return plan.flatMap(({ sheets, loadings }, index) => {
    const placements = new Map(layout.sheets[sheets[0]!]!.placements.map((place) => [copyName(place), place]));
    const times = sheets.length;
    return loadings.map((loading): CutFile => {
      const { number, count, page, isTurned, copies } = loading;
      const word = loading.kind === 'panels' ? 'panel' : 'loading';
      const part = count === 1 ? '' : `-${word}-${String(number).padStart(String(count).length, '0')}`;
      const matrix = intoFile(loading);
      const own = new Set(copies.map(copyName));
      const isMine = (placement: Placement): boolean => own.has(copyName(placement));
      const sheet = layout.sheets[sheets[0]!]!;
      const numbers = hasKnownWaste(sheet.stockId, job) ? wasteNumbers(sheet.placements, byId, page, isMine) : [];
      const paths = copies.flatMap((copy) => pathsOf(placements.get(copyName(copy))!, byId.get(copy.pieceId)!));
      const drawing: SheetDrawing = {
        title: `${jobName}, sheet ${first + index} of ${last}${count === 1 ? '' : `, ${word} ${number} of ${count}`}${times === 1 ? '' : `, cut ${times} times`}`,
        job: jobName,
        sheetNumber: first + index,
        sheetCount: last,
        widthMm: loading.widthMm,
        heightMm: loading.heightMm,
        seed: job.seed,
        kerfState: job.compensate === 'none' ? 'nominal' : 'compensated',
        kerfMm: job.kerf,
        toleranceMm: FIT_TOLERANCE_MM,
        fitMm: job.fit,
        times,
        ...(count === 1 ? {} : { loading: { number, count } }),
        ...(loading.kind === 'whole' && !isTurned ? {} : { origin: { x: page.minX, y: page.minY, isTurned } }),
        notes: loadingWords(loading),
        paths: inOrder([...numbers, ...paths].map((path) => movedPath(path, matrix))),
      };
      const name = `${fileSlug(jobName)}-sheet-${String(first + index).padStart(digits, '0')}${part}${times === 1 ? '' : `-x${times}`}`;
      return { name, drawing, loading, sheets };
    });
  });
}

/** On offcuts and on boards with places to keep clear, what looks like waste may be no board at all. */
function hasKnownWaste(stockId: string, job: Job): boolean {
  return (
    job.offcuts.every((offcut) => offcut.id !== stockId) && job.boards.every((board) => board.forbidden.length === 0)
  );
}

function movedPath(path: SheetPath, matrix: Matrix): SheetPath {
  return {
    ...path,
    contour: transformContour(path.contour, matrix),
    ...(path.holes === undefined ? {} : { holes: path.holes.map((hole) => transformContour(hole, matrix)) }),
  };
}

/** The map from a piece's frame onto the sheet; `placement` in the piece's frame. */
export function onSheet(placement: Placement): Matrix {
  return placementMatrix(placement.x, placement.y, placement.turnDeg, placement.mirrored);
}

function pathsOf(placement: Placement, piece: CutPiece): SheetPath[] {
  const matrix = onSheet(placement);
  const { number } = piece;
  const holes = piece.cutShape.holes.map((hole) => transformContour(hole, matrix));
  // A piece cut from the back shows the board's back: nothing is burnt there.
  const marks = placement.mirrored
    ? []
    : piece.marks.flatMap((mark) => markPaths(mark, copyName(placement), number, matrix));
  return [
    ...marks,
    ...holes.map(
      (contour): SheetPath => ({ process: 'cut-inner', pieceId: copyName(placement), number, contour, role: 'part' }),
    ),
    ...contourWithGaps(piece.cutShape.outer, piece.bridges).map(
      (contour): SheetPath => ({
        process: 'cut-outer',
        pieceId: copyName(placement),
        number,
        contour: transformContour(contour, matrix),
        role: 'part',
      }),
    ),
  ];
}

function markPaths(mark: PieceMark, pieceId: string, number: string, matrix: Matrix): SheetPath[] {
  const roles = { drawn: 'part', guide: 'guide', number: 'number', 'seam-label': 'label' } as const;
  const contours = mark.contours.map((contour) => transformContour(contour, matrix));
  const common = { process: mark.process, pieceId, number, role: roles[mark.kind] };
  if (mark.process === 'engrave' && contours.length > 1 && contours.every((contour) => contour.closed)) {
    return [{ ...common, contour: contours[0]!, holes: contours.slice(1) }];
  }
  return contours.map((contour) => ({ ...common, contour }));
}

function inOrder(paths: readonly SheetPath[]): SheetPath[] {
  return CUTTING_ORDER.flatMap((process) => paths.filter((path) => path.process === process));
}
