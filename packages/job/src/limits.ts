import type { ReachableWindow } from '@underlap/nest/problem';
import type { Limit } from '@underlap/seam/task';
import type { Job, JobBed, JobBoard } from './document.ts';
import { JobError } from './error.ts';
import type { Size } from './units.ts';

/** What bed and boards allow, from the job alone. */
export interface Reach {
  /** Rectangles that every piece must fit. */
  readonly limits: readonly Limit[];
  /** The bed's reach on a board, in the board's directions; null when every board lies whole on the bed. */
  readonly window: ReachableWindow | null;
  /** The board that `limits` speak of: the roomiest one. */
  readonly board: JobBoard;
  /** Boards that are larger than the bed, said in words. */
  readonly messages: readonly string[];
}

/**
 * The rectangles that pieces must fit, and how much of a board the bed reaches.
 * @throws JobError `too-small` when margins leave nothing of the bed or of any board.
 */
export function reachOf(job: Job): Reach {
  const bed = usableBed(job.bed);
  if (bed.width <= 0 || bed.height <= 0) {
    throw new JobError(
      'too-small',
      `The bed's margin of ${job.bed.margin} mm leaves nothing of its ${job.bed.width} x ${job.bed.height} mm: lower bed.margin.`,
      {
        field: 'bed.margin',
      },
    );
  }
  const usable = job.boards.map((board) => ({
    board,
    width: board.width - 2 * job.margin,
    height: board.height - 2 * job.margin,
  }));
  for (const { board, width, height } of usable) {
    if (width <= 0 || height <= 0) {
      throw new JobError(
        'too-small',
        `A margin of ${job.margin} mm leaves nothing of the ${board.width} x ${board.height} mm board: lower the margin.`,
        {
          field: 'margin',
        },
      );
    }
  }
  const roomiest = usable.reduce((best, next) => (next.width * next.height > best.width * best.height ? next : best));
  const beyond = job.boards.filter((board) => !liesOn(bed, board));
  const boardLimit: Limit = { name: 'board', width: roomiest.width, height: roomiest.height };
  if (beyond.length === 0) {
    return { limits: [{ name: 'bed', ...bed }, boardLimit], window: null, board: roomiest.board, messages: [] };
  }
  const window = windowOn(bed, roomiest);
  return {
    limits: [
      { name: 'bed', width: Math.min(window.width, roomiest.width), height: Math.min(window.height, roomiest.height) },
      boardLimit,
    ],
    window,
    board: roomiest.board,
    messages: beyond.map(
      (board) =>
        `The ${board.width} x ${board.height} mm board is larger than the ${job.bed.width} x ${job.bed.height} mm bed: pieces are laid into windows that the bed reaches, and the board is moved between them.`,
    ),
  };
}

/** Bed less its margin; the direction of pass-through is as long as the material may be. */
export function usableBed(bed: JobBed): Size {
  const long = bed.passLength ?? Number.POSITIVE_INFINITY;
  const width = bed.width - 2 * bed.margin;
  const height = bed.height - 2 * bed.margin;
  if (bed.passThrough === 'width') return { width: long, height };
  if (bed.passThrough === 'height') return { width, height: long };
  return { width, height };
}

/** Does the whole board lie on the bed, as it is or turned by a quarter? */
function liesOn(bed: Size, board: Size): boolean {
  return (
    (board.width <= bed.width && board.height <= bed.height) || (board.height <= bed.width && board.width <= bed.height)
  );
}

/** The bed laid along the board or across it, whichever reaches more. */
function windowOn(bed: Size, board: Size): ReachableWindow {
  const along = Math.min(bed.width, board.width) * Math.min(bed.height, board.height);
  const across = Math.min(bed.height, board.width) * Math.min(bed.width, board.height);
  return along >= across ? { width: bed.width, height: bed.height } : { width: bed.height, height: bed.width };
}
