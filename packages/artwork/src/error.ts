import { harmlessText } from './harmless-text.ts';

/** Stable codes of artwork that cannot be used at all; what can be used in part is told as complaints instead. */
export type ArtworkErrorCode =
  | 'not-artwork'
  | 'not-svg'
  | 'not-dxf'
  | 'binary'
  | 'compressed'
  | 'too-large'
  | 'broken-xml'
  | 'broken-dxf'
  | 'entity-expansion'
  | 'empty-drawing'
  | 'bad-option'
  | 'internal';

/**
 * Artwork that cannot be read. The message is one sentence for a maker: file, place, what to do; `place` is the element or
 * line when one is to blame.
 */
export class ArtworkError extends Error {
  readonly place: string | null;

  constructor(
    readonly code: ArtworkErrorCode,
    message: string,
    place: string | null = null,
  ) {
    super(harmlessText(message));
    this.place = place === null ? null : harmlessText(place);
    this.name = 'ArtworkError';
  }
}
