import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import { checkLayout } from '@underlap/nest/check/check-layout';
import type { Layout, NestProblem, Verdict } from '@underlap/nest/problem';
import type { Job } from './document.ts';
import type { CutPiece, NestStageResult } from './stages.ts';

/**
 * The independent verdict on a layout before anything is written: exact cut outlines, at the spacing and margin that the job
 * asked for. Nothing of the search's own geometry enters.
 * @param layout - as it will be written and reported.
 */
export function checkStage(layout: Layout, nested: NestStageResult, pieces: readonly CutPiece[], job: Job): Verdict {
  return checkLayout(problemToCheck(nested.problem, pieces, job), layout);
}

/** The nester's problem with every piece as it is cut, and without the slack that covers chords. */
function problemToCheck(problem: NestProblem, pieces: readonly CutPiece[], job: Job): NestProblem {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  return {
    ...problem,
    pieces: problem.pieces.map((asked) => {
      const { cutShape, baseTurnDeg } = byId.get(asked.id)!;
      return { ...asked, baseTurnDeg, region: shapeToRegion(cutShape, FLATTEN_TOLERANCE_MM), outline: cutShape };
    }),
    rules: { ...problem.rules, spacing: job.spacing, margin: job.margin },
  };
}
