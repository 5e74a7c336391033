import type { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape, Repair } from '../drawing.ts';

/** What one step of the repair has made of the shapes. */
export interface RepairStep {
  readonly shapes: readonly DrawnShape[];
  readonly repairs: readonly Repair[];
}

/** How one step of the repair works; lengths in drawing units. */
export interface RepairSettings {
  readonly repair: boolean;
  readonly gap: number;
  readonly mmPerUnit: number;
  readonly complaints: ComplaintList;
}
