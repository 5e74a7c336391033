import type { DrawnShape } from '@underlap/artwork/drawing';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { readSvg } from '@underlap/artwork/svg/read-svg';
import { contourArea, contourBounds } from '@underlap/geometry/contour';
import type { Contour, ContourView } from '@underlap/geometry/curve';
import type { Bounds } from '@underlap/geometry/ring';
import { goesIn, usableBed } from './board-loading.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import type { CutFile } from './sheet-drawings.ts';
import type { FileSet } from './stages.ts';

/** How far a written outline may be from the meant one, mm: the file's last digit and an arc's rounding. */
const WRITTEN_TOLERANCE_MM = 0.001;

/**
 * Read every written SVG sheet again and compare it with what was meant: true size, number of cut outlines, and the box and
 * area of each.
 * @throws JobError `check-failed` naming sheet and piece.
 * @remarks One parse a sheet; catches a writer that loses, moves or scales a path.
 */
export function proveFiles(files: FileSet, cuts: readonly CutFile[], job: Job): void {
  const bed = usableBed(job.bed);
  for (const [name, content] of files) {
    const cut = cuts.find((candidate) => name.startsWith(`${candidate.name}.`));
    if (cut === undefined) throw new JobError('internal', `${name} belongs to no loading`, { file: name });
    const { drawing } = cut;
    if (!goesIn(bed, { width: drawing.widthMm, height: drawing.heightMm })) {
      throw new JobError(
        'check-failed',
        `${name} measures ${drawing.widthMm} x ${drawing.heightMm} mm and does not lie within the bed, so nothing was written.`,
        { file: name },
      );
    }
    if (name.endsWith('.svg') && typeof content === 'string') proveSheet(name, content, drawing);
  }
}

function proveSheet(name: string, text: string, drawing: SheetDrawing): void {
  const read = readSvg(text, { name, repair: false });
  if (
    read.size.kind !== 'known' ||
    differ(read.size.widthMm, drawing.widthMm) ||
    differ(read.size.heightMm, drawing.heightMm)
  ) {
    throw new JobError(
      'check-failed',
      `${name} did not come out at true size, so nothing was written: this is a fault of the writer.`,
      { file: name },
    );
  }
  const meant = drawing.paths
    .filter((path) => path.process === 'cut-outer' || path.process === 'cut-inner')
    .map((path) => path.contour);
  const found = read.shapes.filter(isCutLine(read.shapes, drawing)).flatMap((shape) => shape.contours);
  const missing = unmatched(meant, found);
  if (missing !== null || found.length !== meant.length) {
    const place =
      missing === null
        ? 'there are more outlines than meant'
        : `an outline near ${missing.minX.toFixed(1)}, ${missing.minY.toFixed(1)} mm is not as meant`;
    throw new JobError(
      'check-failed',
      `${name} does not hold what was meant (${place}), so nothing was written: this is a fault of the writer.`,
      { file: name },
    );
  }
}

/** Cut outlines are the last paths of a sheet, after all marks. */
function isCutLine(
  shapes: readonly DrawnShape[],
  drawing: SheetDrawing,
): (shape: DrawnShape, index: number) => boolean {
  const cuts = drawing.paths.filter((path) => path.process === 'cut-outer' || path.process === 'cut-inner').length;
  return (_, index) => index >= shapes.length - cuts;
}

/** The box of a meant contour that has no equal among those found; each found one serves once. */
function unmatched(meant: readonly Contour[], found: readonly ContourView[]): Bounds | null {
  const rest = found.map((contour) => ({ bounds: contourBounds(contour), area: Math.abs(contourArea(contour)) }));
  for (const contour of meant) {
    const bounds = contourBounds(contour);
    const area = Math.abs(contourArea(contour));
    const reach = bounds.maxX - bounds.minX + bounds.maxY - bounds.minY;
    const at = rest.findIndex(
      (candidate) =>
        isSameBox(candidate.bounds, bounds) && Math.abs(candidate.area - area) <= WRITTEN_TOLERANCE_MM * reach,
    );
    if (at < 0) return bounds;
    rest.splice(at, 1);
  }
  return null;
}

function isSameBox(a: Bounds, b: Bounds): boolean {
  return !(differ(a.minX, b.minX) || differ(a.minY, b.minY) || differ(a.maxX, b.maxX) || differ(a.maxY, b.maxY));
}

function differ(a: number, b: number): boolean {
  return !(Math.abs(a - b) <= WRITTEN_TOLERANCE_MM);
}
