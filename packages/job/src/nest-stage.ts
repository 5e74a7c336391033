import { FLATTEN_TOLERANCE_MM } from '@underlap/geometry/flatten';
import { placementMatrix } from '@underlap/geometry/matrix';
import { type Region, regionArea, regionBounds } from '@underlap/geometry/region';
import { transformRegion } from '@underlap/geometry/transform-region';
import { parseCopyName } from '@underlap/nest/copy';
import type { NestPiece, NestProblem, Pinned, Stock } from '@underlap/nest/problem';
import { boardLoading, stockReach } from './board-loading.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { parseRegions } from './path-regions.ts';
import type { CutPiece, JobPiece, NestStageResult } from './stages.ts';

/**
 * The nester's problem: every piece once for each sign that it is still to be cut for; boards and offcuts of one stock. Plain data.
 * @param job - as the stock sees it (`jobOfStock`).
 */
export function nestProblemOf(pieces: readonly JobPiece[], job: Job): NestProblem {
  const hasCurves = pieces.some((piece) => hasCurve(piece));
  return {
    pieces: pieces.map((piece) => nestPieceOf(piece)),
    stock: [
      ...job.boards.map((board, index) => boardStock(job, index, board)),
      ...job.offcuts.map((offcut, index) => offcutStock(job, offcut, index)),
    ],
    rules: {
      // Chords lie inside the curves they stand for, by up to the tolerance on each of two neighbours.
      spacing: job.spacing + (hasCurves && job.spacing > 0 ? 2 * FLATTEN_TOLERANCE_MM : 0),
      margin: job.margin + (hasCurves && job.margin > 0 ? FLATTEN_TOLERANCE_MM : 0),
      aim: job.aim === 'fewest-bought' ? 'cheapest' : job.aim,
      // biome-ignore lint/suspicious/noThenProperty: a word in the nester's contract; nobody awaits rules
      then: job.tieBreak,
    },
    pinned: job.pinned.flatMap((pin) => pinnedOf(pin, pieces)),
  };
}

/** Name of a board in layouts and reports: its own, else its size; a number follows where two would be called the same. */
export function boardId(job: Job, index: number): string {
  const name = (at: number) => {
    const board = job.boards[at]!;
    return board.id ?? `${shortNumber(board.width)}x${shortNumber(board.height)}`;
  };
  const earlier = job.boards.slice(0, index).filter((_, at) => name(at) === name(index)).length;
  return earlier === 0 ? name(index) : `${name(index)}-${earlier + 1}`;
}

function nestPieceOf(piece: JobPiece): NestPiece {
  const { job } = piece.design;
  const own = { ...piece, id: piece.ownId };
  return {
    id: piece.id,
    region: piece.cutRegion,
    outline: piece.cutShape,
    quantity: piece.signs.length,
    turns: job.turns.parts[own.partId] ?? job.turns.parts[own.id] ?? job.turns.default,
    baseTurnDeg: piece.baseTurnDeg,
    mayMirror: mayMirror(own, job),
    keepsGrain: job.turns.keepGrain.includes(piece.partId),
    groups: groupsOf(piece),
  };
}

/** A part with marks on its face cannot be cut from the back: the marks would burn on the wrong side. */
function mayMirror(piece: CutPiece, job: Job): boolean {
  return job.turns.mirror.includes(piece.partId) && !piece.marks.some((mark) => mark.kind === 'drawn');
}

/** What shares a sheet with each copy: of one stock, since sheets never mix stocks. */
function groupsOf(piece: JobPiece): string[] {
  const { together } = piece.design.job;
  const { id, order } = piece.design;
  if (together === 'free') return [];
  if (together === 'order') return piece.signs.map(() => `order ${order === '' ? `of ${id}` : order}`);
  const group = together === 'sign' ? 0 : together.findIndex((parts) => parts.includes(piece.partId));
  if (group < 0) return [];
  const of = id === '' ? '' : `${id}, `;
  return piece.signs.map((sign) => `${of}sign ${sign}, group ${group + 1}`);
}

function boardStock(job: Job, index: number, board: Job['boards'][number]): Stock {
  return {
    id: boardId(job, index),
    outline: rectangle(0, 0, board.width, board.height),
    count: countLeft(board.count, boardId(job, index), job),
    price: job.aim === 'fewest-bought' ? 1 : board.price,
    forbidden: board.forbidden.map((zone) => rectangle(zone.x, zone.y, zone.width, zone.height)),
    hasGrain: board.grain,
    ...stockReach(boardLoading(job, board)),
  };
}

/** How many there still are: finished sheets have taken theirs. */
function countLeft(count: number | null, id: string, job: Job): number | null {
  if (count === null) return null;
  return Math.max(0, count - job.done.filter((sheet) => sheet.board === id).length);
}

/** Offcuts cost next to nothing beside a board to be bought, those named first the least: none is taken without need. */
function offcutPrice(job: Job, index: number): number {
  return job.aim === 'fewest-bought' ? 1e-3 + 1e-6 * index : 0;
}

function offcutStock(job: Job, offcut: Job['offcuts'][number], index: number): Stock {
  const field = `the outline of offcut ${offcut.id}`;
  const regions = parseRegions(offcut.outline, field);
  if (regions.length > 1)
    throw new JobError(
      'job-invalid',
      `${field} falls into ${regions.length} areas: give each as an offcut of its own.`,
      { field },
    );
  const region = regions[0]!;
  const { minX, minY, maxX, maxY } = regionBounds(region);
  return {
    id: offcut.id,
    outline: transformRegion(region, placementMatrix(-minX, -minY, 0)),
    count: countLeft(offcut.count, offcut.id, job),
    price: offcutPrice(job, index),
    forbidden: [],
    hasGrain: offcut.grain,
    ...stockReach(boardLoading(job, { width: maxX - minX, height: maxY - minY })),
  };
}

/** @throws JobError `job-invalid` for a pinned copy that is not among those of the job. */
export function checkPins(pieces: readonly JobPiece[], job: Job): void {
  for (const { piece } of job.pinned) {
    const ref = parseCopyName(piece);
    const own = pieces.find(({ id }) => id === ref?.pieceId);
    if (ref !== null && own?.signs.includes(ref.copy)) continue;
    const why =
      own === undefined || ref === null
        ? `that this sign does not have: ids look like "${pieces[0]?.id ?? 'backer'}#1".`
        : `that is finished or beyond the ${own.design.count} signs of its design.`;
    throw new JobError('job-invalid', `pinned names a piece "${piece}" ${why}`, { field: 'pinned' });
  }
}

function pinnedOf(pin: Job['pinned'][number], pieces: readonly JobPiece[]): Pinned[] {
  const ref = parseCopyName(pin.piece);
  const piece = pieces.find((candidate) => candidate.id === ref?.pieceId);
  if (ref === null || piece === undefined) return [];
  const { sheet, x, y, mirrored } = pin;
  const copy = piece.signs.indexOf(ref.copy) + 1;
  const turnDeg = ((pin.turnDeg % 360) + 360) % 360;
  return [{ pieceId: piece.id, copy, sheet, stockId: pin.stock, x, y, turnDeg, mirrored }];
}

function hasCurve(piece: CutPiece): boolean {
  return [piece.cutShape.outer, ...piece.cutShape.holes].some((contour) =>
    contour.segments.some((segment) => segment.kind !== 'line'),
  );
}

function rectangle(x: number, y: number, width: number, height: number): Region {
  return { outer: Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height), holes: [] };
}

function shortNumber(value: number): string {
  return String(Number(value.toFixed(2)));
}

/** Area of all boards and offcuts of a layout, mm2. */
export function stockAreaOf({ problem, layout }: Pick<NestStageResult, 'problem' | 'layout'>): number {
  const areas = new Map(problem.stock.map((stock) => [stock.id, regionArea(stock.outline)]));
  return layout.sheets.reduce((sum, sheet) => sum + (areas.get(sheet.stockId) ?? sheet.width * sheet.height), 0);
}

/** Price of one board of that name; offcuts on hand cost nothing. */
export function priceOf(job: Job, stockId: string): number {
  const index = job.boards.findIndex((_, at) => boardId(job, at) === stockId);
  return job.boards[index]?.price ?? 0;
}
