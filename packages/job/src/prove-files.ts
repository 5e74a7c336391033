import { type SheetStyle, styleOf } from '@underlap/artwork/process-style';
import type { SheetPath } from '@underlap/artwork/sheet-drawing';
import { DXF_FIT_TOLERANCE_MM, layerName } from '@underlap/artwork/write-dxf';
import { usableBed } from './board-loading.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { styleOfJob } from './files-stage.ts';
import type { FoundSheet } from './proof/found-sheet.ts';
import { type MeantOutline, type MeantSheet, sheetFault } from './proof/prove-sheet.ts';
import { readDxfSheet } from './proof/read-dxf-sheet.ts';
import { readPdfSheet } from './proof/read-pdf-sheet.ts';
import { readSvgSheet } from './proof/read-svg-sheet.ts';
import type { CutFile } from './sheet-drawings.ts';
import type { FileSet } from './stages.ts';

type Format = Job['output']['formats'][number];

/**
 * How far a written outline may be from the meant one, mm: what the exact check's own curves are off (0.001 on either side), the
 * file's last digit, and in DXF the arcs that stand for Beziers and ellipses.
 */
const TOLERANCE_MM: Readonly<Record<Format, number>> = {
  svg: 0.004,
  dxf: 0.004 + 2 * DXF_FIT_TOLERANCE_MM,
  pdf: 0.004,
};

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

async function faultOf(content: string | Uint8Array, format: Format, meant: MeantSheet): Promise<string | null> {
  let found: FoundSheet;
  try {
    found =
      typeof content !== 'string'
        ? await readPdfSheet(content)
        : format === 'dxf'
          ? readDxfSheet(content)
          : readSvgSheet(content);
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
    toleranceMm: TOLERANCE_MM[format],
    outlines: drawing.paths
      .filter((path) => path.role !== 'number' || style.showsNumbers)
      .flatMap((path) => outlinesOf(path, groupName(path, format, style))),
  };
}

function outlinesOf(path: SheetPath, group: string): MeantOutline[] {
  const cut = path.process === 'cut-outer' ? 'outer' : path.process === 'cut-inner' ? 'inner' : null;
  return [path.contour, ...(path.holes ?? [])]
    .filter((contour) => contour.segments.length > 0)
    .map((contour) => ({ group, pieceId: path.pieceId, cut, contour }));
}

function groupName(path: SheetPath, format: Format, style: SheetStyle): string {
  if (format === 'svg') return path.process;
  const { layer } = styleOf(path, style);
  return format === 'dxf' ? layerName(layer) : layer;
}
