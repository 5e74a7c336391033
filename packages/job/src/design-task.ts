import { regionBounds } from '@underlap/geometry/region';
import type { Limit } from '@underlap/seam/task';
import type { Sign } from '@underlap/stack/sign';
import { cutStage } from './cut-stage.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { reachOf } from './limits.ts';
import { proveSplits } from './prove-splits.ts';
import { splitStage } from './split-stage.ts';
import type { CutPiece, SplitResult } from './stages.ts';
import { jobForPart } from './stock-of.ts';

/** One design to be split and cut elsewhere; plain data. */
export interface DesignTask {
  readonly kind: 'design';
  readonly sign: Sign;
  readonly job: Job;
}

/** What comes of it: the very results of the stages. */
export interface DesignMade {
  readonly split: SplitResult;
  readonly pieces: readonly CutPiece[];
}

/** Threads that make designs. What they cannot do is answered with null and done here: the result is the same. */
export interface DesignThreads {
  /** Designs that are made at the same time. */
  readonly size: number;
  make(task: DesignTask, signal: AbortSignal | undefined): Promise<DesignMade | null>;
}

export function isDesignTask<T extends object>(task: T | DesignTask): task is DesignTask {
  return 'kind' in task && task.kind === 'design';
}

/** @param job - of this design alone; texts of drawings and fonts are left behind: no later stage looks at them. */
export function designTask(sign: Sign, job: Job): DesignTask {
  const { artwork, lettering } = job;
  return {
    kind: 'design',
    sign,
    job: { ...job, artwork: { ...artwork, text: null }, lettering: { ...lettering, fonts: [] } },
  };
}

/** @throws whatever the stages throw. */
export async function runDesignTask({ sign, job }: DesignTask): Promise<DesignMade> {
  const split = await splitStage(sign, job, { seed: job.seed });
  const pieces = await cutStage(split, sign, job);
  await proveSplits(split, sign, job);
  return { split, pieces };
}

function limitsOf(job: Job): readonly Limit[] {
  try {
    return reachOf(job).limits;
  } catch (error) {
    if (error instanceof JobError) return [];
    throw error;
  }
}

/** Does a part lie beyond what the bed takes as it is drawn? Then planning its seams is worth a thread. A bed without room is told later. */
export function isLarge(sign: Sign, job: Job): boolean {
  return sign.parts.some((part) => {
    const { minX, minY, maxX, maxY } = regionBounds(part.region);
    const [width, height] = [maxX - minX, maxY - minY];
    return limitsOf(jobForPart(job, part)).some(
      (limit) =>
        Math.min(width, height) > Math.min(limit.width, limit.height) ||
        Math.max(width, height) > Math.max(limit.width, limit.height),
    );
  });
}
