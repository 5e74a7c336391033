import { ComplaintList } from '../complaint-list.ts';
import type { Complaint, DrawnShape, Repair } from '../drawing.ts';
import { closeOutlines } from './close-outlines.ts';
import { dropPoints } from './drop-points.ts';
import { joinLines } from './join-lines.ts';
import { removeDoubles } from './remove-doubles.ts';
import type { RepairSettings, RepairStep } from './step.ts';
import { CLOSE_GAP_MM } from './tolerances.ts';

/** A gap of exactly the width that is closed may come out a hair wider for the digits of its ends. */
const ROUNDING = 1 + 1e-6;

export interface RepairOptions {
  /** False mends nothing: faults become complaints. */
  readonly repair: boolean;
  readonly closeGapMm?: number;
  /** Size of a drawing unit, mm; 25.4 / 96 stands in while the size is open. */
  readonly mmPerUnit: number;
}

/**
 * Mend what drawing programs leave behind, and tell every change: zero-length and near-duplicate points dropped, near-closed
 * outlines closed, lines drawn twice removed, loose lines that come round joined. Filled areas keep the outline that the
 * drawing shows.
 * @remarks About linear in segments: everything is looked up by hashing.
 */
export function repairShapes(
  shapes: readonly DrawnShape[],
  options: RepairOptions,
): RepairStep & { readonly complaints: readonly Complaint[] } {
  const complaints = new ComplaintList();
  const settings: RepairSettings = {
    repair: options.repair,
    gap: ((options.closeGapMm ?? CLOSE_GAP_MM) / options.mmPerUnit) * ROUNDING,
    mmPerUnit: options.mmPerUnit,
    complaints,
  };
  const repairs: Repair[] = [];
  let current = shapes;
  for (const step of [dropPoints, closeOutlines, removeDoubles, joinLines]) {
    const done = step(current, settings);
    current = done.shapes;
    repairs.push(...done.repairs);
    if (step === joinLines && done.repairs.length > 0) {
      // Joined lines may turn out to be an outline that is there already.
      const again = removeDoubles(current, { ...settings, complaints: new ComplaintList() });
      current = again.shapes;
      repairs.push(...again.repairs);
    }
  }
  return { shapes: current, repairs, complaints: complaints.finish() };
}
