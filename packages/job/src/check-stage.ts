import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import { checkLayout } from '@underlap/nest/check/check-layout';
import type { Layout, NestProblem, Verdict } from '@underlap/nest/problem';
import type { Job } from './document.ts';
import { placementInPieceFrame } from './nest-stage.ts';
import type { CutPiece, NestStageResult } from './stages.ts';

/**
 * The independent verdict on a layout before anything is written: exact cut outlines in the pieces' own frames, at the
 * spacing and margin that the job asked for. Nothing of the search's own geometry enters.
 * @param layout - in the pieces' frames, as it will be written and reported.
 */
export function checkStage(layout: Layout, nested: NestStageResult, pieces: readonly CutPiece[], job: Job): Verdict {
  return checkLayout(problemToCheck(nested.problem, pieces, job), layout);
}

/** The nester's problem with every piece as it is cut, unturned, and without the slack that covers chords. */
function problemToCheck(problem: NestProblem, pieces: readonly CutPiece[], job: Job): NestProblem {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  return {
    ...problem,
    parts: problem.parts.map((part) => {
      const piece = byId.get(part.id)!;
      return {
        ...part,
        region: shapeToRegion(piece.cutShape, FLATTEN_TOLERANCE_MM),
        outline: piece.cutShape,
        // Turns are counted from the base turn, which the rule does not know of; the nester's own rule was checked there.
        turns: piece.baseTurnDeg === 0 ? part.turns : 'any',
      };
    }),
    rules: { ...problem.rules, spacing: job.spacing, margin: job.margin },
    pinned: problem.pinned.map((pin) => {
      const piece = byId.get(pin.pieceId.slice(0, pin.pieceId.lastIndexOf('#')))!;
      const { turnDeg } = placementInPieceFrame({ ...pin, partId: piece.id, copy: 1 }, piece);
      return { ...pin, turnDeg };
    }),
  };
}
