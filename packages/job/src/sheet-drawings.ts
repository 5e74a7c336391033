import { CUTTING_ORDER, type SheetDrawing, type SheetPath } from '@underlap/artwork/sheet-drawing';
import { transformContour, transformShape } from '@underlap/geometry/contour';
import { type Matrix, placementMatrix } from '@underlap/geometry/matrix';
import { copyName } from '@underlap/nest/copy';
import type { Layout, Placement } from '@underlap/nest/problem';
import type { Job } from './document.ts';
import type { CutPiece, PieceMark } from './stages.ts';

/** Largest distance between an offset contour and the arcs fitted to it, mm; stated in every file. */
const FIT_TOLERANCE_MM = 0.01;

/** One drawing per sheet, every path in its place. `layout` is in the pieces' frames. */
export function sheetDrawings(layout: Layout, pieces: readonly CutPiece[], job: Job, jobName: string): SheetDrawing[] {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  return layout.sheets.map((sheet, index) => ({
    title: `${jobName}, sheet ${index + 1} of ${layout.sheets.length}`,
    job: jobName,
    sheetNumber: index + 1,
    sheetCount: layout.sheets.length,
    widthMm: sheet.width,
    heightMm: sheet.height,
    seed: job.seed,
    kerfState: job.compensate === 'none' ? 'nominal' : 'compensated',
    kerfMm: job.kerf,
    toleranceMm: FIT_TOLERANCE_MM,
    fitMm: job.fit,
    paths: inOrder(sheet.placements.flatMap((placement) => pathsOf(placement, byId.get(placement.pieceId)!))),
  }));
}

/** The map from a piece's frame onto the sheet; `placement` in the piece's frame. */
export function onSheet(placement: Placement): Matrix {
  return placementMatrix(placement.x, placement.y, placement.turnDeg, placement.mirrored);
}

function pathsOf(placement: Placement, piece: CutPiece): SheetPath[] {
  const matrix = onSheet(placement);
  const shape = transformShape(piece.cutShape, matrix);
  // A piece cut from the back shows the board's back: nothing is burnt there.
  const marks = placement.mirrored ? [] : piece.marks.flatMap((mark) => markPaths(mark, copyName(placement), matrix));
  return [
    ...marks,
    ...shape.holes.map(
      (contour): SheetPath => ({ process: 'cut-inner', pieceId: copyName(placement), contour, role: 'part' }),
    ),
    { process: 'cut-outer', pieceId: copyName(placement), contour: shape.outer, role: 'part' },
  ];
}

function markPaths(mark: PieceMark, pieceId: string, matrix: Matrix): SheetPath[] {
  const roles = { drawn: 'part', guide: 'guide', number: 'number', 'seam-label': 'label' } as const;
  const contours = mark.contours.map((contour) => transformContour(contour, matrix));
  const common = { process: mark.process, pieceId, role: roles[mark.kind] };
  if (mark.process === 'engrave' && contours.length > 1 && contours.every((contour) => contour.closed)) {
    return [{ ...common, contour: contours[0]!, holes: contours.slice(1) }];
  }
  return contours.map((contour) => ({ ...common, contour }));
}

function inOrder(paths: readonly SheetPath[]): SheetPath[] {
  return CUTTING_ORDER.flatMap((process) => paths.filter((path) => path.process === process));
}
