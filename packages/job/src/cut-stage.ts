import type { Shape } from '@underlap/geometry/curve';
import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import { convexHull } from '@underlap/geometry/hull';
import { placementMatrix } from '@underlap/geometry/matrix';
import { offsetShape } from '@underlap/geometry/offset-shape';
import { ringBounds } from '@underlap/geometry/ring';
import { transformRing } from '@underlap/geometry/transform-region';
import { cutOutline } from '@underlap/seam/cut-outline';
import type { Limit } from '@underlap/seam/task';
import type { Sign } from '@underlap/stack/sign';
import { bridgesOf } from './bridges.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { reachOf } from './limits.ts';
import { marksOf, plateMarks, signMarks } from './marks-stage.ts';
import { numberingOf } from './numbering.ts';
import { roomiestPoint } from './roomy-point.ts';
import type { CutPiece, PartSplit, Piece, SplitResult } from './stages.ts';
import { jobForPart, stockIdOf } from './stock-of.ts';
import { listenForStop } from './stop.ts';

/**
 * Every piece as the machine cuts it: kerf and fit applied exactly once, marks in place.
 *
 * `compensate: all` grows every contour by half the kerf, so that parts come out true to size; `seams` grows only the mating
 * edges of split parts and leaves drawn contours as drawn; `none` leaves everything, and the machine must compensate.
 * @throws JobError `too-small` when a part vanishes or falls apart under the kerf; `cancelled` between two parts.
 */
export async function cutStage(split: SplitResult, sign: Sign, job: Job, signal?: AbortSignal): Promise<CutPiece[]> {
  const marks = signMarks(sign, job);
  const numbering = numberingOf(split, job.marks.before);
  const pieces: CutPiece[] = [];
  for (const partSplit of split.parts) {
    await listenForStop(signal);
    const part = sign.parts.find((candidate) => candidate.id === partSplit.partId)!;
    const own = jobForPart(job, part);
    const stockId = stockIdOf(job, part);
    const shapes = cutShapesOf(partSplit, own);
    const seams = partSplit.plan?.seams.map(({ path }) => path) ?? [];
    for (const [at, piece] of partSplit.pieces.entries()) {
      const burnt = marksOf(piece, numbering, partSplit, sign, marks, job);
      const number = numbering.pieces.get(piece.id)!;
      const cut = cutPiece(piece, shapes[at]!, number, burnt, reachOf(own).limits, own);
      pieces.push({ ...cut, bridges: bridgesOf(cut.cutShape.outer, seams, job.bridges), stockId });
    }
  }
  const plates = split.plates.map((plate): CutPiece => {
    const part = sign.parts.find((candidate) => candidate.id === plate.ofPartId)!;
    const own = jobForPart(job, part);
    const burnt = plateMarks(plate, numbering, job);
    const shape = wholeCutShape(plate, own);
    const piece = cutPiece(plate, shape, numbering.pieces.get(plate.id)!, burnt, reachOf(own).limits, own);
    const bridges = bridgesOf(shape.outer, [], job.bridges);
    return { ...piece, bridges, stockId: stockIdOf(job, part) };
  });
  return [...pieces, ...plates];
}

function cutShapesOf(split: PartSplit, job: Job): readonly Shape[] {
  if (split.plan === null) return split.pieces.map((piece) => wholeCutShape(piece, job));
  const rules = { kerf: job.kerf, fit: job.fit, compensate: job.compensate };
  return split.plan.pieces.map((piece) => cutOutline(piece, rules));
}

function wholeCutShape(piece: Piece, job: Job): Shape {
  if (job.compensate !== 'all' || job.kerf === 0) return piece.shape;
  const shapes = offsetShape(piece.shape, job.kerf / 2);
  if (shapes.length !== 1) {
    throw new JobError(
      'too-small',
      `Part ${piece.partId} does not survive a kerf of ${job.kerf} mm: enlarge it or lower the kerf.`,
      {
        part: piece.partId,
      },
    );
  }
  return shapes[0]!;
}

function cutPiece(
  piece: Piece,
  cutShape: Shape,
  number: string,
  marks: CutPiece['marks'],
  limits: readonly Limit[],
  job: Job,
): Omit<CutPiece, 'stockId' | 'bridges'> {
  const cutRegion = shapeToRegion(cutShape, FLATTEN_TOLERANCE_MM);
  const spot = roomiestPoint([piece.region]) ?? { x: piece.region.outer[0]!, y: piece.region.outer[1]! };
  return {
    ...piece,
    cutShape,
    cutRegion,
    marks,
    isAsDrawn: cutShape === piece.shape,
    number,
    centre: { x: spot.x, y: spot.y },
    baseTurnDeg: baseTurn(piece, convexHull(cutRegion.outer), limits, job),
  };
}

/**
 * 0 while a turn that the piece's rule allows fits what the bed reaches of the board, or when grain ties it; else the turn found by the fit test, so
 * that the rule's turns are counted from there.
 */
function baseTurn(piece: Piece, hull: Float64Array, limits: readonly Limit[], job: Job): number {
  if (job.turns.keepGrain.includes(piece.partId)) return 0;
  const rule = job.turns.parts[piece.partId] ?? job.turns.parts[piece.id] ?? job.turns.default;
  if (rule === 'any') return 0;
  const quarter = rule === 'quarter' ? [0, 90] : [0];
  const fits = quarter.some((turn) => {
    const { minX, minY, maxX, maxY } = ringBounds(transformRing(hull, placementMatrix(0, 0, turn)));
    return limits.every((limit) => maxX - minX <= limit.width && maxY - minY <= limit.height);
  });
  // On a board that is larger than the bed a piece must lie within the bed's reach; else the board is the tighter of the two.
  return fits ? 0 : reachOf(job).hasLoadings ? piece.limitTurnDeg.bed : piece.limitTurnDeg.board;
}
