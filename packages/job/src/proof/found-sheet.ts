import type { Contour } from '@underlap/geometry/curve';

/** One outline as a reader found it in a written file, mm, y down, the file's upper left corner at 0, 0. */
export interface FoundOutline {
  /** The process (SVG) or the layer (DXF, PDF) that it is written under. */
  readonly group: string;
  /** The placement it says it belongs to; null where the reader cannot tell. */
  readonly pieceId: string | null;
  readonly contour: Contour;
}

/** A written file as an independent reader sees it. */
export interface FoundSheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly outlines: readonly FoundOutline[];
}
