import { convexHull } from '@underlap/geometry/hull';
import { densePoints, expectedPieces } from './candidates.ts';
import { commonBox, roughlyGoesIn } from './goes-in.ts';
import { sizeWords } from './margin-remedy.ts';
import { seamSizes } from './sizes.ts';
import type { Limit, SeamRemark, SeamTask } from './task.ts';

/**
 * Which limit makes a part need so many pieces, in words: the bed or the board. Margins are planned without: `marginRemedy`.
 * @returns one remark; null where the limits are alike.
 * @remarks Estimates by strips, O(limits x turns x points): what is named is what would have to give way, not a promise of fewer pieces.
 */
export function whatLimits(task: SeamTask): SeamRemark | null {
  const all = piecesWithin(task, task.limits);
  for (const limit of task.limits) {
    const others = task.limits.filter((each) => each !== limit);
    if (others.length > 0 && piecesWithin(task, others) >= all) continue;
    const message = `The ${limit.name} limits this part: pieces must go in ${sizeWords(limit)}.`;
    return { code: `limited-by-${limit.name}`, message, at: null };
  }
  return null;
}

function piecesWithin(task: SeamTask, limits: readonly Limit[]): number {
  const hull = convexHull(task.region.outer);
  if (roughlyGoesIn(hull, limits, task.kerf)) return 1;
  const rho = seamSizes(task.thickness, task.kerf).reach + 0.5;
  const box = commonBox(limits, task.kerf);
  return Math.max(2, expectedPieces(densePoints(task.region.outer), box, { rho, oneSided: true }, 1));
}
