import type { Complaint, DrawnShape, Place, Process, Repair } from '@underlap/artwork/drawing';
import type { Contour, Shape } from '@underlap/geometry/curve';
import type { Region } from '@underlap/geometry/region';

/** A part on its way: known face, no id and no marks yet. */
export interface DraftPart {
  readonly shape: Shape;
  readonly region: Region;
  readonly source: DrawnShape;
}

/** A mark on its way: not yet given to a part. `after` = number of parts drawn before it. */
export interface DraftMark {
  readonly process: Exclude<Process, 'cut'>;
  readonly contours: readonly Contour[];
  readonly source: DrawnShape;
  readonly after: number;
}

/** What was found in a drawing. */
export interface Draft {
  readonly parts: readonly DraftPart[];
  readonly marks: readonly DraftMark[];
  readonly repairs: readonly Repair[];
  readonly complaints: readonly Complaint[];
}

/** What the beam does along a shape; a part whose fill is paint is cut. */
export type Usage = (shape: DrawnShape) => Process | 'ignore';

export function processOf({ process }: { readonly process: Process | 'ignore' | 'paint' }): Process | 'ignore' {
  return process === 'paint' ? 'cut' : process;
}

export function complain(code: string, severity: Complaint['severity'], message: string, place: Place): Complaint {
  return { code, severity, message, place };
}
