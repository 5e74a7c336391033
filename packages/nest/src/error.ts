/** Stable codes of nesting problems that cannot be worked on at all. A piece that fits nowhere is not an error. */
export type NestErrorCode =
  | 'bad-piece'
  | 'bad-stock'
  | 'bad-rule'
  | 'bad-pin'
  | 'bad-effort'
  | 'worker-failed'
  | 'internal';

/** A fault in a nesting problem; `place` names the piece, stock or rule. */
export class NestError extends Error {
  constructor(
    readonly code: NestErrorCode,
    message: string,
    readonly place: string | null = null,
  ) {
    super(message);
    this.name = 'NestError';
  }
}
