import type { Contour, ContourView } from '@underlap/geometry/curve';
import type { Matrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';

/** `#rrggbb`, lower case. */
export type Colour = string;

/** What the beam does along a path. */
export type Process = 'cut' | 'score' | 'deep-score' | 'engrave';

/** A place in the artwork that a person can find: the element as words, and where it is drawn (mm) when that is known. */
export interface Place {
  readonly element: string;
  readonly at: Point | null;
}

/** Something the reader mended, always told. `sizeMm` is how far anything moved (0 for a removal of an exact double). */
export interface Repair {
  readonly kind: 'closed-gap' | 'removed-double' | 'dropped-points' | 'resolved-self-crossing' | 'chained-segments';
  readonly message: string;
  readonly place: Place;
  readonly sizeMm: number;
}

/** Something a person should know or decide; `code` is stable. */
export interface Complaint {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'note';
  readonly message: string;
  readonly place: Place;
}

/** True size of the drawing: told by the file, told by the user, or open with the two customary readings. */
export type PhysicalSize =
  | { readonly kind: 'known'; readonly widthMm: number; readonly heightMm: number; readonly source: 'file' | 'user' }
  | { readonly kind: 'open'; readonly choices: readonly SizeChoice[] };

export interface SizeChoice {
  readonly perInch: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** One shape element as drawn, in mm (in user units while the size is open), document order = bottom to top. */
export interface DrawnShape {
  /** Stable from run to run: from the element's own id, else from its kind and running number. */
  readonly id: string;
  /** The element's own label, title or id, when a person gave it one; null for what a program has numbered. */
  readonly name: string | null;
  /** Nearest named group or DXF layer. */
  readonly layer: string | null;
  /** Packed: `plainContour` takes one out for algorithms that need its segments in an array. */
  readonly contours: readonly ContourView[];
  readonly fillRule: 'nonzero' | 'evenodd';
  readonly fill: Colour | null;
  readonly stroke: Colour | null;
  readonly strokeWidthMm: number;
  readonly place: Place;
}

/** Characters of one style, in the user units of their text. */
export interface TextRun {
  readonly text: string;
  /** Positions and shifts of single characters (UTF-16 index within `text`), as far as the drawing gives them; null = none. */
  readonly x: readonly (number | null)[];
  readonly y: readonly (number | null)[];
  readonly dx: readonly number[];
  readonly dy: readonly number[];
  /** Turn of each character about its place, degrees, clockwise as seen. */
  readonly rotate: readonly number[];
  /** Font families as written, best first. */
  readonly families: readonly string[];
  /** Size of the em, or height of capitals: see `sizeOf`. */
  readonly size: number;
  readonly sizeOf: 'em' | 'capitals';
  /** 100 to 900; 400 = regular. */
  readonly weight: number;
  readonly italic: boolean;
  readonly letterSpacing: number;
  readonly wordSpacing: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly direction: 'ltr' | 'rtl' | 'auto';
  /** The line that the baseline follows, in the same units. */
  readonly path: { readonly contour: Contour; readonly startOffset: number } | null;
  /** How long the runs of one group are to become together, and by what: gaps, wider letters, or letters larger both ways. */
  readonly stretch: { readonly group: number; readonly length: number; readonly by: 'gaps' | 'glyphs' | 'size' } | null;
}

/** Text as drawn: words and places. Letters come of it with a font. */
export interface DrawnText {
  readonly id: string;
  readonly name: string | null;
  readonly layer: string | null;
  readonly runs: readonly TextRun[];
  /** From the text's user units to mm (to user units of the drawing while the size is open). */
  readonly matrix: Matrix;
  readonly fill: Colour | null;
  readonly stroke: Colour | null;
  readonly strokeWidthMm: number;
  /** Id of the shape drawn just before it; null when it comes first. */
  readonly after: string | null;
  readonly place: Place;
}

/** Artwork text read into mm. Nothing here knows of parts or signs. */
export interface Drawing {
  readonly name: string;
  readonly format: 'svg' | 'dxf';
  readonly size: PhysicalSize;
  readonly shapes: readonly DrawnShape[];
  /** Texts that still have no letters; each is told as a complaint `text` too. */
  readonly texts: readonly DrawnText[];
  readonly repairs: readonly Repair[];
  readonly complaints: readonly Complaint[];
}

/** How the user answers an open size, and whether repairs are wanted. */
export interface ReadOptions {
  /** File name for messages. */
  readonly name: string;
  /** Physical width of the whole drawing, mm. */
  readonly widthMm?: number;
  /** User units to the inch. */
  readonly perInch?: number;
  /** Default true; false leaves everything as drawn and only complains. */
  readonly repair?: boolean;
  /** Largest gap that is closed, mm; default 0.1. */
  readonly closeGapMm?: number;
}
