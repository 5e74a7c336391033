/** One physical instance of a piece in the batch: the piece, and its number from 1. */
export interface CopyRef {
  readonly pieceId: string;
  readonly copy: number;
}

/** A copy as one word, "backer.a#1": a key for tables, and the text of job documents and messages. */
export function copyName({ pieceId, copy }: CopyRef): string {
  return `${pieceId}#${copy}`;
}

/**
 * Read a copy that a job document names. An id may hold the sign itself: the number follows the last one.
 * @returns null when the text does not end in a whole number from 1 on after that sign.
 */
export function parseCopyName(text: string): CopyRef | null {
  const found = /^(.+)#([1-9]\d*)$/s.exec(text);
  return found === null ? null : { pieceId: found[1]!, copy: Number(found[2]) };
}
