import type { Limit } from '@underlap/seam/task';
import { boardLoading, usableBed } from './board-loading.ts';
import type { Job, JobBoard } from './document.ts';
import { JobError } from './error.ts';
import type { Size } from './units.ts';

/** What bed and boards allow, from the job alone. */
export interface Reach {
  /** Rectangles that every piece must go in, as its cut path runs (grown by half the kerf). */
  readonly limits: readonly Limit[];
  /** The board that `limits` speak of: the roomiest one. */
  readonly board: JobBoard;
  /** Does that board take several loadings? A piece must then go in what one of them reaches. */
  readonly hasLoadings: boolean;
  /** Boards that are larger than the bed, said in words. */
  readonly messages: readonly string[];
}

/**
 * The rectangles that pieces must go in.
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
  const rooms = job.boards.map((board) => roomOn(job, bed, board));
  const roomiest = rooms.reduce((best, next) => (areaOf(next) > areaOf(best) ? next : best));
  return {
    limits: [
      { name: 'bed', ...roomiest.bed, ...(roomiest.kind === 'whole' ? { margin: job.bed.margin } : {}) },
      { name: 'board', ...roomiest.usable, margin: job.margin },
    ],
    board: roomiest.board,
    hasLoadings: roomiest.kind !== 'whole',
    messages: rooms.filter(({ kind }) => kind !== 'whole').map(({ board, kind }) => loadingMessage(job, board, kind)),
  };
}

interface Room {
  readonly board: JobBoard;
  readonly kind: ReturnType<typeof boardLoading>['kind'];
  /** What one loading reaches. */
  readonly bed: Size;
  /** The board less its margin. */
  readonly usable: Size;
}

function roomOn(job: Job, bed: Size, board: JobBoard): Room {
  const usable = { width: board.width - 2 * job.margin, height: board.height - 2 * job.margin };
  if (usable.width <= 0 || usable.height <= 0) {
    throw new JobError(
      'too-small',
      `A margin of ${job.margin} mm leaves nothing of the ${board.width} x ${board.height} mm board: lower the margin.`,
      {
        field: 'margin',
      },
    );
  }
  const { kind, reach } = boardLoading(job, board);
  if (kind === 'whole') return { board, kind, bed, usable };
  const widest = (spans: typeof reach.columns) => Math.max(...spans.map(({ from, to }) => to - from));
  const width = Math.min(widest(reach.columns), usable.width);
  const height = Math.min(widest(reach.rows), usable.height);
  if (width <= 0 || height <= 0) {
    throw new JobError(
      'too-small',
      `A margin of ${job.margin} mm leaves nothing of the panels that a ${job.bed.width} x ${job.bed.height} mm bed takes: lower the margin.`,
      { field: 'margin' },
    );
  }
  return { board, kind, bed: { width, height }, usable };
}

function areaOf({ bed, usable }: Room): number {
  return Math.min(bed.width, usable.width) * Math.min(bed.height, usable.height);
}

function loadingMessage(job: Job, board: JobBoard, kind: Room['kind']): string {
  const larger = `The ${board.width} x ${board.height} mm board is larger than the ${job.bed.width} x ${job.bed.height} mm bed`;
  return kind === 'panels'
    ? `${larger}: it is cut down first, and each panel is one file.`
    : `${larger}: each file is what the bed reaches at one loading, and the board is moved between them.`;
}
