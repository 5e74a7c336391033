/** A point or vector in mm; y grows downwards, as in a drawing. */
export interface Point {
  readonly x: number;
  readonly y: number;
}
