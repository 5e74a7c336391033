import type { Drawing } from '@underlap/artwork/drawing';
import { type BestSoFar, nest as nestHere } from '@underlap/nest/nest';
import type { Layout, NestProblem, NestResult, Verdict } from '@underlap/nest/problem';
import type { Sign } from '@underlap/stack/sign';
import { checkFault } from './check-failed.ts';
import { checkStage } from './check-stage.ts';
import { cutStage } from './cut-stage.ts';
import type { Job } from './document.ts';
import { Memo } from './memo.ts';
import type { NestRunner } from './nest-runner.ts';
import { nestProblemOf } from './nest-stage.ts';
import { proveSplits } from './prove-splits.ts';
import { readStage } from './read-stage.ts';
import { notFittingOf } from './report-messages.ts';
import { assertUsable, signStage } from './sign-stage.ts';
import { splitStage } from './split-stage.ts';
import { stageKeys } from './stage-keys.ts';
import type { CutPiece, NestStageResult, SplitResult } from './stages.ts';
import { listenForStop, throwIfStopped } from './stop.ts';
import { type Written, writeStage } from './write-stage.ts';

/** Pieces as the machine cuts them, with the proof of the splits they come from. */
export interface CutResult {
  readonly pieces: readonly CutPiece[];
  readonly splitsProven: true;
}

/** A result of the search kept by whoever asked for it, with the key of the job it belongs to. */
export interface FoundLayout {
  readonly key: string;
  readonly result: NestResult;
}

/** How one stage is stopped and watched. */
export interface StageHooks {
  readonly signal?: AbortSignal | undefined;
  /** Share of this stage's own work, 0..1. */
  readonly onProgress?: ((done: number, message?: string) => void) | undefined;
}

export interface NestHooks extends StageHooks {
  /** Ends the search alone: its best layout so far counts. */
  readonly endSearch?: AbortSignal | undefined;
  readonly onBest?: ((best: BestSoFar, problem: NestProblem) => void) | undefined;
}

export interface WriteHooks extends NestHooks {
  /** How long the work took until now, for the report. */
  readonly seconds?: () => number;
}

/**
 * The stages of a job in their order, each remembered by the content of what it depends on: a change redoes only that, and
 * equal input gives the very same object again. The command line, the page's worker, studies and tests all go through here.
 * A job carries its artwork as `artwork.text`.
 */
export class Pipeline {
  private readonly drawings = new Memo<Drawing>(32);
  private readonly signs = new Memo<Sign>(48);
  private readonly splits = new Memo<SplitResult>(64);
  private readonly cuts = new Memo<CutResult>(64);
  private readonly layouts = new Memo<NestStageResult>(40);
  private readonly verdicts = new Memo<Verdict>(40);
  private readonly written = new Memo<Written>(3);
  /** Results of searches made elsewhere; the check looks at them like at any other. */
  private readonly found = new Memo<NestResult>(4);
  /** Layouts to go on from when the same job is searched again. */
  private readonly starts = new Memo<Layout>(4);

  /** @param run - who runs the search; default: this thread. */
  constructor(readonly run: NestRunner = nestHere) {}

  /** @throws ArtworkError when the text is no artwork at all. */
  read(job: Job, hooks: StageHooks = {}): Promise<Drawing> {
    return this.drawings.of(stageKeys(job).read, async () => {
      await listenForStop(hooks.signal);
      return readStage(job.artwork.text ?? '', job);
    });
  }

  /** @throws JobError `size-unknown`, StackError. Faults of the drawing are the caller's to refuse (`assertUsable`). */
  sign(job: Job, hooks: StageHooks = {}): Promise<Sign> {
    return this.signs.of(stageKeys(job).sign, async () => {
      const drawing = await this.read(job, hooks);
      await listenForStop(hooks.signal);
      return signStage(drawing, job);
    });
  }

  /** @throws JobError `cancelled`, `too-small`; SeamError. What cannot be made to fit is an outcome. */
  split(job: Job, hooks: StageHooks = {}): Promise<SplitResult> {
    return this.splits.of(stageKeys(job).split, async () =>
      splitStage(await this.sign(job, hooks), job, {
        seed: job.seed,
        ...(hooks.signal === undefined ? {} : { signal: hooks.signal }),
        onProgress: (progress) => hooks.onProgress?.(progress.done, progress.message),
      }),
    );
  }

  /** @throws JobError `check-failed` when a split does not hold, `too-small` when a part does not survive the kerf. */
  cut(job: Job, hooks: StageHooks = {}): Promise<CutResult> {
    return this.cuts.of(stageKeys(job).cut, async () => {
      const sign = await this.sign(job, hooks);
      const split = await this.split(job, hooks);
      return {
        pieces: await cutStage(split, sign, job, hooks.signal),
        splitsProven: await proveSplits(split, sign, job, hooks.signal),
      };
    });
  }

  /** The pieces on boards; null when a part cannot be made to fit. Nothing of it can be written before it is checked. */
  async nest(job: Job, hooks: NestHooks = {}): Promise<NestStageResult | null> {
    if (notFittingOf(await this.split(job, hooks), null).length > 0) return null;
    const { nest: key } = stageKeys(job);
    return this.layouts.of(key, async () => {
      const { pieces } = await this.cut(job, hooks);
      const found = this.found.get(key);
      if (found === undefined) return this.search(pieces, job, this.starts.get(key), hooks);
      return { problem: nestProblemOf(pieces, job), result: found, layout: found.layout };
    });
  }

  /**
   * The independent verdict on the layout; null when there is none.
   * @throws JobError `check-failed` when the check refuses it: nothing of it can be written then.
   */
  async check(job: Job, hooks: NestHooks = {}): Promise<Verdict | null> {
    const nested = await this.nest(job, hooks);
    if (nested === null) return null;
    return this.verdicts.of(stageKeys(job).nest, async () =>
      this.verdictOn(nested, (await this.cut(job, hooks)).pieces, job, hooks),
    );
  }

  /**
   * A checked layout that begins with another one, such as one of a smaller batch; the result depends on it and is not remembered.
   * @param start - in the nester's frames; null = from nothing.
   * @throws JobError `check-failed`.
   */
  async nestFrom(job: Job, start: Layout | null, hooks: NestHooks = {}): Promise<NestStageResult> {
    const { pieces } = await this.cut(job, hooks);
    const nested = await this.search(pieces, job, start ?? undefined, hooks);
    await this.verdictOn(nested, pieces, job, hooks);
    return nested;
  }

  /**
   * @throws JobError `artwork-faulty` while something is lost that nobody has accepted; `check-failed` when a sheet, read back,
   * is not what was meant.
   */
  async write(job: Job, hooks: WriteHooks = {}): Promise<Written> {
    assertUsable(await this.sign(job, hooks), job);
    return this.written.of(stageKeys(job).files, async () => {
      const nested = await this.nest(job, hooks);
      const verdict = await this.check(job, hooks);
      const { pieces, splitsProven } = await this.cut(job, hooks);
      return writeStage({
        job,
        drawing: await this.read(job, hooks),
        sign: await this.sign(job, hooks),
        split: await this.split(job, hooks),
        pieces,
        splitsProven,
        nested,
        verdict,
        seconds: hooks.seconds ?? (() => 0),
        ...(hooks.signal === undefined ? {} : { signal: hooks.signal }),
      });
    });
  }

  /** Take a layout that was found elsewhere for granted, instead of searching for it. */
  remember({ key, result }: FoundLayout): void {
    this.found.set(key, result);
  }

  /** Search again for the layout of this job, from where it stands; what was written of it goes too. */
  forgetLayout(job: Job): void {
    const { nest: key, files } = stageKeys(job);
    const nested = this.layouts.get(key);
    if (nested !== undefined) this.starts.set(key, nested.result.layout);
    this.layouts.forget(key);
    this.verdicts.forget(key);
    this.found.forget(key);
    this.written.forget(files);
  }

  private async search(
    pieces: readonly CutPiece[],
    job: Job,
    start: Layout | undefined,
    { signal, endSearch, onBest, onProgress }: NestHooks,
  ): Promise<NestStageResult> {
    const problem = nestProblemOf(pieces, job);
    const ends = [signal, endSearch].filter((one) => one !== undefined);
    const result = await this.run(problem, job.effort, {
      seed: job.seed,
      ...(ends.length === 0 ? {} : { signal: AbortSignal.any(ends) }),
      onProgress: (progress) => onProgress?.(progress.done, progress.message),
      onBest: (best) => onBest?.(best, problem),
      ...(start === undefined ? {} : { start }),
    });
    throwIfStopped(signal);
    return { problem, result, layout: result.layout };
  }

  private async verdictOn(
    nested: NestStageResult,
    pieces: readonly CutPiece[],
    job: Job,
    { signal }: StageHooks,
  ): Promise<Verdict> {
    await listenForStop(signal);
    const verdict = checkStage(nested.layout, nested, pieces, job);
    const fault = checkFault(verdict, nested.layout);
    if (fault !== null) throw fault;
    await listenForStop(signal);
    return verdict;
  }
}
