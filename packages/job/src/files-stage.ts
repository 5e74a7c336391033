import { type SheetStyle, sheetStyle } from '@underlap/artwork/process-style';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { writeSheetDxf } from '@underlap/artwork/write-dxf';
import { writeSheetSvg } from '@underlap/artwork/write-svg';
import type { Job } from './document.ts';
import type { FileSet } from './stages.ts';
import { listenForStop } from './stop.ts';

/** Names of the files of one sheet, by format, in the job's order of formats. */
export function sheetFileNames(
  jobName: string,
  sheet: number,
  sheets: number,
  formats: Job['output']['formats'],
): string[] {
  const digits = Math.max(2, String(sheets).length);
  const base = `${fileSlug(jobName)}-sheet-${String(sheet).padStart(digits, '0')}`;
  return formats.map((format) => `${base}.${format}`);
}

/** One file per sheet and format. @throws ArtworkError when a sheet cannot be written. */
export async function filesStage(
  drawings: readonly SheetDrawing[],
  job: Job,
  jobName: string,
  signal?: AbortSignal,
): Promise<FileSet> {
  const style = styleOfJob(job);
  const files = new Map<string, string | Uint8Array>();
  for (const drawing of drawings) {
    await listenForStop(signal);
    const names = sheetFileNames(jobName, drawing.sheetNumber, drawing.sheetCount, job.output.formats);
    for (const [index, format] of job.output.formats.entries())
      files.set(names[index]!, await writeSheet(drawing, format, style));
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

/** Lower case letters, digits and hyphens: safe on every file system. */
export function fileSlug(name: string): string {
  const slug = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return slug === '' ? 'sign' : slug;
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
