import { cuttingGroups } from '@underlap/artwork/cutting-groups';
import type { SheetStyle } from '@underlap/artwork/process-style';
import type { SheetDrawing } from '@underlap/artwork/sheet-drawing';
import { type SheetTime, sheetTime } from '@underlap/shop/sheet-time';
import type { Costs } from './document.ts';

/** Lengths and time of a sheet in the very order its file is written. */
export function sheetRun(drawing: SheetDrawing, style: SheetStyle, speeds: Costs['speeds']): SheetTime {
  return sheetTime(cuttingGroups(drawing, style), speeds);
}
