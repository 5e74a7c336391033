import type { SplitResult } from './stages.ts';

/**
 * What every piece and seam of a sign is called, everywhere: burnt on it, on the page, in the report, in the files.
 *
 * Pieces carry numbers: "7" for a part that is whole, "7a", "7b" for the pieces of one that is split; rear plates go on
 * counting. Seams carry doubled capitals, "AA", "BB": no number has two, so that neither is taken for the other at the bench.
 */
export interface Numbering {
  /** By piece id; parts that cannot be made to fit have none. */
  readonly pieces: ReadonlyMap<string, string>;
  /** By `seamKey`; unique in the sign. */
  readonly seams: ReadonlyMap<string, string>;
}

/** Seam ids are unique within a part only. */
export function seamKey(partId: string, seamId: string): string {
  return `${partId} ${seamId}`;
}

/**
 * Number all pieces and letter all seams of the plans taken, parts bottom first. O(pieces).
 * @param before - stands before every number, so that pieces of different designs differ: "3-" makes "3-7a".
 */
export function numberingOf({ parts, plates }: SplitResult, before = ''): Numbering {
  const pieces = new Map<string, string>();
  const seams = new Map<string, string>();
  for (const [index, { partId, plan, pieces: own }] of parts.entries()) {
    for (const [at, piece] of own.entries()) pieces.set(piece.id, `${before}${pieceNumber(index, at, own.length)}`);
    for (const seam of plan?.seams ?? []) seams.set(seamKey(partId, seam.id), seamLabel(seams.size));
  }
  for (const [index, plate] of plates.entries()) pieces.set(plate.id, `${before}${parts.length + index + 1}`);
  return { pieces, seams };
}

/** "7", or "7a" when the part is in several pieces; 0-based places. */
export function pieceNumber(part: number, piece: number, pieceCount: number): string {
  return pieceCount === 1 ? String(part + 1) : `${part + 1}${pieceLetter(piece)}`;
}

/** a, b, ... z, then a1, b1, ... */
function pieceLetter(index: number): string {
  const letter = String.fromCharCode(97 + (index % 26));
  return index < 26 ? letter : `${letter}${Math.floor(index / 26)}`;
}

/** Capitals that look like no digit. */
const CAPITALS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/** AA, BB, ... ZZ, then AAA, BBB, ... */
function seamLabel(index: number): string {
  return CAPITALS.charAt(index % CAPITALS.length).repeat(2 + Math.floor(index / CAPITALS.length));
}

/** A sentence about a plan in which its seams go by the letters that are burnt; a plan that is not taken has none yet. */
export function withSeamLabels(
  sentence: string,
  seams: readonly { readonly id: string }[],
  labelOf: (seamId: string) => string | null,
): string {
  return seams.reduce((text, { id }) => {
    const label = labelOf(id);
    const escaped = id.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
    return text.replace(new RegExp(`(seam) ${escaped}(?![\\w.-])`, 'gi'), label === null ? '$1' : `$1 ${label}`);
  }, sentence);
}
