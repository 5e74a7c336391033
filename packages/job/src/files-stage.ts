import { type SheetStyle, sheetStyle } from '@underlap/artwork/process-style';
import type { Job } from './document.ts';
import type { CutFile } from './sheet-drawings.ts';
import { SHEET_FORMATS } from './sheet-formats.ts';
import type { FileSet } from './stages.ts';
import { listenForStop } from './stop.ts';

/** One file per loading and format. @throws ArtworkError when one cannot be written. */
export async function filesStage(cuts: readonly CutFile[], job: Job, signal?: AbortSignal): Promise<FileSet> {
  const style = styleOfJob(job);
  const files = new Map<string, string | Uint8Array>();
  for (const { name, drawing } of cuts) {
    await listenForStop(signal);
    for (const format of job.output.formats) {
      files.set(`${name}.${format}`, await SHEET_FORMATS[format].write(drawing, style));
    }
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
