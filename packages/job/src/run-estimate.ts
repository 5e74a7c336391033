import { cuttingGroups } from '@underlap/artwork/cutting-groups';
import type { SheetStyle } from '@underlap/artwork/process-style';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { contourEnd, contourLength } from '@underlap/geometry/contour';
import type { Costs } from './document.ts';
import { type BeamRun, sheetSeconds } from './machine-time.ts';

/** What the machine does on one sheet. */
export interface SheetRun {
  readonly cutLengthMm: number;
  readonly markLengthMm: number;
  readonly seconds: number;
}

/** Lengths and time of a sheet in the very order its file is written. */
export function sheetRun(drawing: SheetDrawing, style: SheetStyle, speeds: Costs['speeds']): SheetRun {
  let cutLengthMm = 0;
  let markLengthMm = 0;
  const runs = cuttingGroups(drawing, style).flatMap((group) =>
    group.paths.flatMap((path) =>
      [path.contour, ...(path.holes ?? [])].map((contour): BeamRun => {
        const lengthMm = contourLength(contour);
        const isCut = path.process === 'cut-inner' || path.process === 'cut-outer';
        if (isCut) cutLengthMm += lengthMm;
        else markLengthMm += lengthMm;
        return {
          process: path.process === 'cut-inner' || path.process === 'cut-outer' ? 'cut' : path.process,
          lengthMm,
          from: contour.start,
          to: contour.closed ? contour.start : contourEnd(contour),
        };
      }),
    ),
  );
  return { cutLengthMm, markLengthMm, seconds: sheetSeconds(runs, speeds) };
}
