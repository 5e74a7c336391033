/** Stable codes of lettering that cannot be set. */
export type LetteringErrorCode = 'bad-font' | 'no-font' | 'empty-text' | 'no-place' | 'too-long' | 'bad-option';

/** Text that cannot become parts. One sentence for a maker: which text, which font, what to do. */
export class LetteringError extends Error {
  constructor(
    readonly code: LetteringErrorCode,
    message: string,
    /** The text's id in the drawing, or the font's file. */
    readonly place: string | null = null,
  ) {
    super(message);
    this.name = 'LetteringError';
  }
}
