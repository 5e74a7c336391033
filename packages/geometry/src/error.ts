/** Stable codes of everything that geometry refuses. */
export type GeometryErrorCode = 'non-finite' | 'degenerate' | 'open-contour' | 'out-of-range' | 'internal';

/** A fault in the numbers handed to geometry; `place` says where (ring and vertex, contour and segment). */
export class GeometryError extends Error {
  constructor(
    readonly code: GeometryErrorCode,
    message: string,
    readonly place: string | null = null,
  ) {
    super(message);
    this.name = 'GeometryError';
  }
}
