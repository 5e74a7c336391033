import type { Colour, Complaint, Place, Process, Repair } from '@underlap/artwork/drawing';
import type { Contour, Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import type { Use } from './usage.ts';

/** A line or area burnt on the surface of the part `partId`, in the part's frame. */
export interface Mark {
  readonly id: string;
  readonly partId: string;
  readonly process: Exclude<Process, 'cut'>;
  readonly contours: readonly Contour[];
  readonly lengthMm: number;
}

/** One connected flat shape of the design. */
export interface Part {
  /** Stable, short and safe in file names. */
  readonly id: string;
  readonly name: string;
  readonly layer: string | null;
  /** Exact face, mm, in the assembled position (in the drawn position while `place` is 'drawn'). */
  readonly shape: Shape;
  /** The same, flattened within FLATTEN_TOLERANCE_MM. */
  readonly region: Region;
  readonly paint: Colour | null;
  readonly marks: readonly Mark[];
  /** 'assembled': the frame is the finished sign's; 'drawn': where it goes is not known, so it covers nothing. */
  readonly place: 'assembled' | 'drawn';
  readonly drawnAt: Place;
}

/** A sign: parts bottom first. */
export interface Sign {
  readonly name: string;
  readonly mode: 'stacked' | 'spread';
  readonly widthMm: number;
  readonly heightMm: number;
  readonly parts: readonly Part[];
  readonly matches: readonly StackMatch[];
  /** Slots that were added to hang it from; they are holes of their part. */
  readonly slots?: readonly { readonly partId: string; readonly at: Point }[];
  /** What the drawing's colours and layers were taken for. */
  readonly uses: readonly Use[];
  readonly repairs: readonly Repair[];
  readonly complaints: readonly Complaint[];
}

/** A part found again on a score outline of a lower part (spread drawings). */
export interface StackMatch {
  readonly partId: string;
  readonly onPartId: string;
  readonly markId: string;
  readonly turnDeg: number;
  readonly mirrored: boolean;
  /** Largest distance between part and outline after the match, mm. */
  readonly errorMm: number;
  /** Several equal parts would fit here; they were assigned consistently. */
  readonly ambiguous: boolean;
}
