import { shapeToPathData } from '@underlap/geometry/path-data';
import type { CopyRef } from '@underlap/nest/copy';
import type { Layout } from '@underlap/nest/problem';
import { contentKey } from './content-key.ts';
import type { Design } from './designs.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import type { CutPiece, DesignResult, JobPiece } from './stages.ts';

/**
 * The pieces of all designs that are still to be cut, with ids that are unique in the job. What finished sheets hold is left out.
 * @throws JobError `job-invalid` when a finished sheet holds what the job no longer has, or has in another shape.
 */
export function jobPiecesOf(designs: readonly Pick<DesignResult, 'design' | 'pieces'>[], job: Job): JobPiece[] {
  const all = designs.flatMap(({ design, pieces }) => pieces.map((piece) => jobPiece(piece, design)));
  const made = madeOf(all, job);
  return all.flatMap((piece) => {
    const own = made.get(piece.id);
    const signs = own === undefined ? piece.signs : piece.signs.filter((sign) => !own.has(sign));
    return signs.length === 0 ? [] : [{ ...piece, signs }];
  });
}

function jobPiece(piece: CutPiece, design: Design): JobPiece {
  const signs = Array.from({ length: design.count }, (_, index) => index + 1);
  return { ...piece, id: `${design.prefix}${piece.id}`, ownId: piece.id, design, signs };
}

/** Signs that each piece was cut for. */
function madeOf(pieces: readonly JobPiece[], job: Job): Map<string, Set<number>> {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const made = new Map<string, Set<number>>();
  for (const { number, pieces: cut } of job.done) {
    for (const { piece: id, copy, shape, number: carried } of cut) {
      const piece = byId.get(id);
      const refuse = (why: string) =>
        new JobError('job-invalid', `Sheet ${number} is finished and holds ${id} for sign ${copy}, but ${why}`, {
          field: 'done',
          part: id,
        });
      if (piece === undefined)
        throw refuse('the job has no such piece: put its design back, or take the sheet out of `done`.');
      if (!piece.signs.includes(copy))
        throw refuse(`only ${piece.design.count} signs are to be made: raise the count again.`);
      if (shape !== shapeKey(piece))
        throw refuse(
          'that piece has another outline now: undo what changed its design, or take the sheet out of `done`.',
        );
      if (carried !== '' && carried !== piece.number)
        throw refuse(
          `it carries the number ${carried} there and would be called ${piece.number} now: put new designs at the end of the list, or give every design its \`mark\`.`,
        );
      const own = made.get(id) ?? new Set();
      if (own.has(copy)) throw refuse('another finished sheet holds it too.');
      made.set(id, own.add(copy));
    }
  }
  return made;
}

/** Decimals by which outlines are told apart; the last bits of a sine differ between machines. */
const SHAPE_DECIMALS = 2;

/** Key of a piece's outline as drawn. */
export function shapeKey(piece: Pick<CutPiece, 'shape'>): string {
  return contentKey(shapeToPathData(piece.shape, SHAPE_DECIMALS));
}

/** A layout of the nester, which counts the copies of each piece from 1, with the numbers of the signs that they are for. */
export function withSignNumbers(layout: Layout, pieces: readonly JobPiece[]): Layout {
  if (pieces.every((piece) => piece.signs.at(-1) === piece.signs.length)) return layout;
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const named = <T extends CopyRef>(copy: T): T => ({
    ...copy,
    copy: byId.get(copy.pieceId)?.signs[copy.copy - 1] ?? copy.copy,
  });
  return {
    ...layout,
    sheets: layout.sheets.map((sheet) => ({
      ...sheet,
      placements: sheet.placements.map(named),
      windows: sheet.windows.map((window) => ({ ...window, copies: window.copies.map(named) })),
    })),
    unplaced: layout.unplaced.map(named),
  };
}
