import type { SheetStyle } from '@underlap/artwork/process-style';
import type { SheetPath } from '@underlap/artwork/sheet-drawing';
import { usableBed } from './board-loading.ts';
import { BRIDGE_SAG_MM } from './bridges.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { styleOfJob } from './files-stage.ts';
import type { FoundSheet } from './proof/found-sheet.ts';
import { type MeantOutline, type MeantSheet, sheetFault } from './proof/prove-sheet.ts';
import type { CutFile } from './sheet-drawings.ts';
import { type Format, SHEET_FORMATS, type SheetContent } from './sheet-formats.ts';
import type { FileSet } from './stages.ts';

/**
 * Read every written file again, by readers that share nothing with the writers, and compare it with what was meant and with
 * what the machine can take.
 * @throws JobError `check-failed` naming the file and the piece.
 */
export async function proveFiles(files: FileSet, cuts: readonly CutFile[], job: Job): Promise<void> {
  const style = styleOfJob(job);
  for (const [name, content] of files) {
    const cut = cuts.find((candidate) => name.startsWith(`${candidate.name}.`));
    if (cut === undefined) throw new JobError('internal', `${name} belongs to no loading`, { file: name });
    const format = name.slice(name.lastIndexOf('.') + 1) as Format;
    const fault = await faultOf(content, format, meantSheet(cut, format, style, job));
    if (fault === null) continue;
    throw new JobError(
      'check-failed',
      `${name} is not what was meant, so nothing was written: ${fault}. This is a fault of the writer.`,
      { file: name },
    );
  }
}

async function faultOf(content: SheetContent, format: Format, meant: MeantSheet): Promise<string | null> {
  let found: FoundSheet;
  try {
    found = await SHEET_FORMATS[format].read(content);
  } catch (error) {
    return `it cannot be read again: ${error instanceof Error ? error.message : String(error)}`;
  }
  return sheetFault(meant, found);
}

/** What one file was meant to hold, under the names that its format writes. */
function meantSheet({ drawing, loading }: CutFile, format: Format, style: SheetStyle, job: Job): MeantSheet {
  const { widthMm, heightMm } = drawing;
  const { board } = loading;
  const least = (edge: number) => Math.max(0, edge + job.margin);
  return {
    widthMm,
    heightMm,
    bed: usableBed(job.bed),
    spacingMm: job.spacing,
    // the edge of a panel is an edge of stock; of a moved board only the edges that the file shows are
    inner:
      loading.kind === 'panels'
        ? { minX: job.margin, minY: job.margin, maxX: widthMm - job.margin, maxY: heightMm - job.margin }
        : {
            minX: least(board.minX),
            minY: least(board.minY),
            maxX: Math.min(widthMm, board.maxX - job.margin),
            maxY: Math.min(heightMm, board.maxY - job.margin),
          },
    bridges: job.bridges.number === 0 ? null : { widthMm: job.bridges.width, sagMm: BRIDGE_SAG_MM },
    toleranceMm: SHEET_FORMATS[format].toleranceMm,
    outlines: drawing.paths
      .filter((path) => path.role !== 'number' || style.showsNumbers)
      .flatMap((path) => outlinesOf(path, SHEET_FORMATS[format].groupOf(path, style))),
  };
}

function outlinesOf(path: SheetPath, group: string): MeantOutline[] {
  const cut = path.process === 'cut-outer' ? 'outer' : path.process === 'cut-inner' ? 'inner' : null;
  return [path.contour, ...(path.holes ?? [])]
    .filter((contour) => contour.segments.length > 0)
    .map((contour) => ({ group, pieceId: path.pieceId, cut, contour }));
}
