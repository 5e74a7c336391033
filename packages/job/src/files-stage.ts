import { type SheetStyle, sheetStyle } from '@underlap/artwork/process-style';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { writeSheetDxf } from '@underlap/artwork/write-dxf';
import { writeSheetSvg } from '@underlap/artwork/write-svg';
import type { Job } from './document.ts';
import type { CutFile } from './sheet-drawings.ts';
import type { FileSet } from './stages.ts';
import { listenForStop } from './stop.ts';

/** One file per loading and format. @throws ArtworkError when one cannot be written. */
export async function filesStage(cuts: readonly CutFile[], job: Job, signal?: AbortSignal): Promise<FileSet> {
  const style = styleOfJob(job);
  const files = new Map<string, string | Uint8Array>();
  for (const { name, drawing } of cuts) {
    await listenForStop(signal);
    for (const format of job.output.formats) files.set(`${name}.${format}`, await writeSheet(drawing, format, style));
  }
  return files;
}

/** The default style with the job's colours and layers. */
export function styleOfJob(job: Job): SheetStyle {
  return sheetStyle({
    layers: job.output.layers,
    showsNumbers: job.marks.numbers !== 'off',
    rounds: job.output.rounds,
  });
}

/** One sheet in one format. @throws ArtworkError when it cannot be written. */
export async function writeSheet(
  drawing: SheetDrawing,
  format: Job['output']['formats'][number],
  style: SheetStyle,
): Promise<string | Uint8Array> {
  switch (format) {
    case 'svg':
      return writeSheetSvg(drawing, style);
    case 'dxf':
      return writeSheetDxf(drawing, style);
    case 'pdf': {
      // Loaded when asked for: the library is large, and most jobs need no PDF.
      const { writeSheetPdf } = await import('@underlap/artwork/write-pdf');
      return writeSheetPdf(drawing, style);
    }
  }
}
