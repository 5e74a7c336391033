import type { Drawing } from '@underlap/artwork/drawing';
import type { Progress } from '@underlap/geometry/context';
import { checkFault } from '@underlap/job/check-failed';
import { checkStage } from '@underlap/job/check-stage';
import { cutStage } from '@underlap/job/cut-stage';
import type { Job } from '@underlap/job/document';
import { inPieceFrames, nestProblemOf, nestStage } from '@underlap/job/nest-stage';
import { proveSplits } from '@underlap/job/prove-splits';
import { readStage } from '@underlap/job/read-stage';
import { signStage } from '@underlap/job/sign-stage';
import { splitStage } from '@underlap/job/split-stage';
import type { CutPiece, NestStageResult, SplitResult } from '@underlap/job/stages';
import type { BestSoFar } from '@underlap/nest/nest';
import type { NestPool } from '@underlap/nest/pool';
import type { Layout, NestProblem, NestResult, Verdict } from '@underlap/nest/problem';
import type { Sign } from '@underlap/stack/sign';
import type { FoundLayout } from '../state/results.ts';
import { Memo } from './memo.ts';
import { type StageKeys, stageKeys } from './stage-keys.ts';

/** A layout with its independent verdict. */
export interface Laid {
  readonly nested: NestStageResult;
  readonly verdict: Verdict;
}

export interface CutResult {
  readonly pieces: readonly CutPiece[];
  readonly splitsProven: boolean;
}

export interface StageHooks {
  readonly signal: AbortSignal;
  readonly onProgress?: (done: number, message: string) => void;
}

export interface NestHooks extends StageHooks {
  /** Threads to search in; null = this one. */
  readonly pool: NestPool | null;
  readonly onBest?: (best: BestSoFar, problem: NestProblem) => void;
}

/**
 * The stages of the job package, each remembered by the content of what it depends on: the same functions in the same order as
 * the command line runs them.
 */
export class StagesRun {
  private readonly drawings = new Memo<Drawing>(4);
  private readonly signs = new Memo<Sign>(6);
  private readonly splits = new Memo<SplitResult>(24);
  private readonly cuts = new Memo<CutResult>(12);
  private readonly layouts = new Memo<Laid>(40);
  /** Results of searches made before this worker started; the check looks at them like at any other. */
  private readonly found = new Memo<NestResult>(4);
  /** Layouts to go on from when the same job is searched again. */
  private readonly starts = new Memo<Layout>(4);

  read(job: Job, keys: StageKeys = stageKeys(job)): Drawing {
    return remember(this.drawings, keys.read, () => readStage(job.artwork.text ?? '', job));
  }

  sign(job: Job, keys: StageKeys = stageKeys(job)): Sign {
    return remember(this.signs, keys.sign, () => signStage(this.read(job, keys), job));
  }

  async split(job: Job, keys: StageKeys, hooks: StageHooks): Promise<SplitResult> {
    const known = this.splits.get(keys.split);
    if (known !== undefined) return known;
    const split = await splitStage(this.sign(job, keys), job, {
      seed: job.seed,
      signal: hooks.signal,
      onProgress: (progress) => hooks.onProgress?.(progress.done, progress.message ?? ''),
    });
    this.splits.set(keys.split, split);
    return split;
  }

  async cut(job: Job, keys: StageKeys, hooks: StageHooks): Promise<CutResult> {
    const known = this.cuts.get(keys.cut);
    if (known !== undefined) return known;
    const sign = this.sign(job, keys);
    const split = await this.split(job, keys, hooks);
    const cut = { pieces: cutStage(split, sign, job), splitsProven: proveSplits(split, sign, job) };
    this.cuts.set(keys.cut, cut);
    return cut;
  }

  /** @throws JobError when the independent check refuses the layout; nothing of it can be exported then. */
  async nest(job: Job, keys: StageKeys, hooks: NestHooks): Promise<Laid> {
    const known = this.layouts.get(keys.nest);
    if (known !== undefined) return known;
    const { pieces } = await this.cut(job, keys, hooks);
    const { pool, onBest } = hooks;
    const start = this.starts.get(keys.nest);
    const problem = nestProblemOf(pieces, job);
    const context = {
      seed: job.seed,
      signal: hooks.signal,
      onProgress: (progress: Progress) => hooks.onProgress?.(progress.done, progress.message ?? ''),
      onBest: (best: BestSoFar) => onBest?.(best, problem),
      ...(pool === null ? {} : { pool }),
      ...(start === undefined ? {} : { start }),
    };
    const found = this.found.get(keys.nest);
    const nested =
      found === undefined
        ? await nestStage(pieces, job, context)
        : { problem, result: found, layout: inPieceFrames(found.layout, pieces) };
    const verdict = checkStage(nested.layout, nested, pieces, job);
    const fault = checkFault(verdict, nested.layout);
    if (fault !== null) throw fault;
    const laid = { nested, verdict };
    this.layouts.set(keys.nest, laid);
    return laid;
  }

  /** Take a layout that was found before for granted, instead of searching for it. */
  remember({ key, result }: FoundLayout): void {
    this.found.set(key, result);
  }

  /** Search again for the layout of this job, from where it stands. */
  forgetLayout(job: Job): void {
    const key = stageKeys(job).nest;
    const laid = this.layouts.get(key);
    if (laid !== undefined) this.starts.set(key, laid.nested.result.layout);
    this.layouts.forget(key);
    this.found.forget(key);
  }
}

function remember<T>(memo: Memo<T>, key: string, make: () => T): T {
  const known = memo.get(key);
  if (known !== undefined) return known;
  const made = make();
  memo.set(key, made);
  return made;
}
