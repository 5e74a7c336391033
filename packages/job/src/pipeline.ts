import type { Drawing } from '@underlap/artwork/drawing';
import { type BestSoFar, nest as nestHere } from '@underlap/nest/nest';
import type { Layout, NestProblem, NestResult, Verdict } from '@underlap/nest/problem';
import type { Sign } from '@underlap/stack/sign';
import { checkFault } from './check-failed.ts';
import { checkStage } from './check-stage.ts';
import { contentKey } from './content-key.ts';
import { cutStage } from './cut-stage.ts';
import { type DesignThreads, designTask, isLarge } from './design-task.ts';
import { type Design, designsOf } from './designs.ts';
import type { Job } from './document.ts';
import { JobError } from './error.ts';
import { jobPiecesOf, withSignNumbers } from './job-pieces.ts';
import { letteredDrawing } from './lettered-drawing.ts';
import { Memo } from './memo.ts';
import type { NestRunner } from './nest-runner.ts';
import { checkPins, nestProblemOf } from './nest-stage.ts';
import { proveSplits } from './prove-splits.ts';
import { readStage } from './read-stage.ts';
import { partsOfNoDesign } from './sign-faults.ts';
import { assertUsable, signStage } from './sign-stage.ts';
import { splitStage } from './split-stage.ts';
import { jobKeys, stageKeys, stockKey } from './stage-keys.ts';
import type { CutPiece, DesignResult, JobPiece, NestStageResult, SplitResult, StockLayout } from './stages.ts';
import { jobOfStock, stockIdsOf } from './stock-of.ts';
import { listenForStop, throwIfStopped } from './stop.ts';
import { type Written, writeStage } from './write-stage.ts';

/** Pieces as the machine cuts them, with the proof of the splits they come from. */
export interface CutResult {
  readonly pieces: readonly CutPiece[];
  readonly splitsProven: true;
}

/** Results of so many signs are kept: a table of names may have as many rows. */
const MOST_DESIGNS = 520;

/** Results of a job's searches kept by whoever asked for them, one a stock, with the key of the job they belong to. */
export interface FoundLayout {
  readonly key: string;
  readonly results: readonly { readonly key: string; readonly result: NestResult }[];
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
  /** Every better layout of one stock, with those of the stocks before it. */
  readonly onBest?:
    | ((best: BestSoFar, problem: NestProblem, stockId: string, before: readonly StockLayout[]) => void)
    | undefined;
}

export interface WriteHooks extends NestHooks {
  /** How long the work took until now, for the report. */
  readonly seconds?: () => number;
}

/**
 * The stages of a job in their order, each remembered by the content of what it depends on: a change redoes only that, and
 * equal input gives the very same object again. The command line, the page's worker, studies and tests all go through here.
 *
 * Up to the cut pieces the stages take one design, as a job that holds it alone (`designsOf(job)[i].job`, with its artwork as
 * `artwork.text`); from the boards on they take the whole job, once a stock.
 */
export class Pipeline {
  private readonly drawn = new Memo<Drawing>(MOST_DESIGNS);
  private readonly drawings = new Memo<Drawing>(MOST_DESIGNS);
  private readonly signs = new Memo<Sign>(MOST_DESIGNS);
  private readonly splits = new Memo<SplitResult>(MOST_DESIGNS);
  private readonly cuts = new Memo<CutResult>(MOST_DESIGNS);
  private readonly layouts = new Memo<NestStageResult>(60);
  private readonly nested = new Memo<readonly StockLayout[]>(20);
  /** Those of `nested` with the job as it is, by the key of its files. */
  private readonly current = new Memo<{
    readonly laid: readonly StockLayout[];
    readonly stocks: readonly StockLayout[];
  }>(20);
  private readonly verdicts = new Memo<Verdict>(60);
  private readonly written = new Memo<Written>(3);
  /** Results of searches made elsewhere; the check looks at them like at any other. */
  private readonly found = new Memo<NestResult>(20);
  /** Layouts to go on from when the same job is searched again. */
  private readonly starts = new Memo<Layout>(20);

  /**
   * @param run - who runs the search; default: this thread.
   * @param threads - who makes several large designs at once; default: nobody, they are made one after another.
   */
  constructor(
    readonly run: NestRunner = nestHere,
    private readonly threads: DesignThreads | null = null,
  ) {}

  /**
   * Split and cut large designs at once, in threads, so that the stages find them made; without threads, or for a single one,
   * nothing is done. What fails there is left to the stages, which fail with the same sentence.
   * @param jobs - of one design each. @throws JobError `cancelled`.
   */
  async makeAhead(jobs: readonly Job[], hooks: StageHooks = {}): Promise<void> {
    const { threads } = this;
    if (threads === null) return;
    const waiting: { readonly sign: Sign; readonly job: Job; readonly areaMm2: number }[] = [];
    const keys = new Set<string>();
    for (const job of jobs) {
      const { split, cut } = stageKeys(job);
      if (keys.has(cut) || this.splits.get(split) !== undefined) continue;
      keys.add(cut);
      const sign = await this.sign(job, hooks);
      if (isLarge(sign, job)) waiting.push({ sign, job, areaMm2: sign.widthMm * sign.heightMm });
    }
    if (waiting.length < 2) return;
    // The largest first: whoever comes last then takes least.
    waiting.sort((a, b) => b.areaMm2 - a.areaMm2);
    let done = 0;
    const count = waiting.length;
    const lane = async (): Promise<void> => {
      for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
        const { sign, job } = next;
        const made = await threads.make(designTask(sign, job), hooks.signal).catch(() => null);
        throwIfStopped(hooks.signal);
        if (made !== null) {
          this.splits.set(stageKeys(job).split, made.split);
          this.cuts.set(stageKeys(job).cut, { pieces: made.pieces, splitsProven: true });
        }
        done++;
        hooks.onProgress?.(done / count, job.name ?? '');
      }
    };
    await Promise.all(Array.from({ length: Math.min(threads.size, count) }, lane));
  }

  /** The drawing with its texts as letters. @throws ArtworkError when the text is no artwork at all; LetteringError. */
  read(job: Job, hooks: StageHooks = {}): Promise<Drawing> {
    return this.drawings.of(stageKeys(job).read, async () => {
      const drawing = await this.drawn.of(stageKeys(job).drawn, async () => {
        await listenForStop(hooks.signal);
        return readStage(job.artwork.text ?? '', job);
      });
      return letteredDrawing(drawing, job);
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

  /** Everything of every design, in the job's order. */
  async designs(job: Job, hooks: StageHooks = {}): Promise<DesignResult[]> {
    const results: DesignResult[] = [];
    for (const design of designsOf(job)) {
      results.push(
        await ofDesign(design, async () => ({
          design,
          drawing: await this.read(design.job, hooks),
          sign: await this.sign(design.job, hooks),
          split: await this.split(design.job, hooks),
          ...(await this.cut(design.job, hooks)),
        })),
      );
    }
    return results;
  }

  /**
   * The pieces on boards, stock by stock; null when a part cannot be made to fit. Nothing of it can be written before it is checked.
   * @throws JobError `job-invalid` for a pinned piece or a finished sheet that the job does not know.
   */
  async nest(job: Job, hooks: NestHooks = {}): Promise<readonly StockLayout[] | null> {
    const designs = await this.designs(job, { signal: hooks.signal });
    if (designs.some(({ split }) => split.parts.some((part) => part.outcome.kind === 'cannot'))) return null;
    const laid = await this.nested.of(jobKeys(job).nest, () =>
      this.layStocks(job, designs, hooks, async (pieces, own, key, stockHooks) =>
        this.layouts.of(key, async () => {
          const found = this.found.get(key);
          if (found === undefined) return this.search(pieces, own, this.starts.get(key), stockHooks);
          return { problem: nestProblemOf(pieces, own), result: found, layout: found.layout };
        }),
      ),
    );
    return this.asNow(laid, designs, job);
  }

  /** The same places for other marks, costs and formats: what does not count for the search is taken from the job as it is now. */
  private asNow(laid: readonly StockLayout[], designs: readonly DesignResult[], job: Job): readonly StockLayout[] {
    const { files } = jobKeys(job);
    const before = this.current.get(files);
    if (before?.laid === laid) return before.stocks;
    const all = jobPiecesOf(designs, job);
    const stocks = laid.map((stock) => ({
      ...stock,
      job: jobOfStock(job, stock.stockId),
      pieces: all.filter(({ stockId }) => stockId === stock.stockId),
    }));
    this.current.set(files, { laid, stocks });
    return stocks;
  }

  /**
   * The independent verdict on every stock's layout; none when there is no layout.
   * @throws JobError `check-failed` when the check refuses one: nothing can be written then.
   */
  async check(job: Job, hooks: NestHooks = {}): Promise<readonly Verdict[]> {
    const stocks = await this.nest(job, hooks);
    const verdicts: Verdict[] = [];
    for (const stock of stocks ?? []) {
      const key = contentKey(stock.stockId, jobKeys(job).nest);
      verdicts.push(await this.verdicts.of(key, () => this.verdictOn(stock, hooks)));
    }
    return verdicts;
  }

  /**
   * Checked layouts that begin with others, such as those of a smaller batch; the result depends on them and is not remembered.
   * @param startOf - for a stock, a layout to begin with; null = from nothing.
   * @throws JobError `check-failed`.
   */
  async nestFrom(
    job: Job,
    startOf: (stockId: string, pieces: readonly JobPiece[]) => Layout | null,
    hooks: NestHooks = {},
  ): Promise<readonly StockLayout[]> {
    const designs = await this.designs(job, { signal: hooks.signal });
    const stocks = await this.layStocks(job, designs, hooks, (pieces, own, _, stockHooks, stockId) =>
      this.search(pieces, own, startOf(stockId, pieces) ?? undefined, stockHooks),
    );
    for (const stock of stocks) await this.verdictOn(stock, hooks);
    return stocks;
  }

  /**
   * @throws JobError `artwork-faulty` while something is lost that nobody has accepted; `check-failed` when a sheet, read back,
   * is not what was meant.
   */
  async write(job: Job, hooks: WriteHooks = {}): Promise<Written> {
    await this.assertUsable(job, hooks);
    return this.written.of(jobKeys(job).files, async () =>
      writeStage({
        job,
        designs: await this.designs(job, hooks),
        stocks: await this.nest(job, hooks),
        verdicts: await this.check(job, hooks),
        seconds: hooks.seconds ?? (() => 0),
        ...(hooks.signal === undefined ? {} : { signal: hooks.signal }),
      }),
    );
  }

  /**
   * Every design can be cut as it is, or a person has accepted what it lacks.
   * @throws JobError `artwork-faulty` while something is lost that nobody has accepted; `job-invalid` for rules of parts that no
   * design has.
   */
  async assertUsable(job: Job, hooks: StageHooks = {}): Promise<void> {
    const designs = designsOf(job);
    const signs: { readonly prefix: string; readonly sign: Sign }[] = [];
    for (const design of designs) {
      const { prefix, base, shared, job: own } = design;
      const sign = await ofDesign(design, () => this.sign(own, hooks));
      await ofDesign(design, async () => assertUsable(sign, own, shared));
      signs.push({ prefix, sign }, { prefix: base === '' ? prefix : `${base}/`, sign });
    }
    const [fault] = designs[0]?.id === '' ? [] : partsOfNoDesign(job, signs);
    if (fault === undefined) return;
    throw new JobError(
      'job-invalid',
      `${fault.field} names the part "${fault.id}", which no design of the job has${fault.hint === '' ? '.' : fault.hint}`,
      { field: fault.field, part: fault.id },
    );
  }

  /** Take layouts that were found elsewhere for granted, instead of searching for them. */
  remember({ results }: FoundLayout): void {
    for (const { key, result } of results) this.found.set(key, result);
  }

  /** What the search found for a job that is laid out, to be kept elsewhere. */
  async foundFor(job: Job): Promise<FoundLayout> {
    const stocks = (await this.nest(job)) ?? [];
    const results = stocks.map(({ stockId, pieces, nested }) => ({
      key: stockKey(job, stockId, pieces),
      result: nested.result,
    }));
    return { key: jobKeys(job).nest, results };
  }

  /** Search again for the layout of this job, from where it stands; what was written of it goes too. */
  forgetLayout(job: Job): void {
    const { nest: key, files } = jobKeys(job);
    for (const { stockId, pieces, nested } of this.nested.get(key) ?? []) {
      const own = stockKey(job, stockId, pieces);
      this.starts.set(own, nested.result.layout);
      this.layouts.forget(own);
      this.found.forget(own);
      this.verdicts.forget(contentKey(stockId, key));
    }
    this.nested.forget(key);
    this.written.forget(files);
  }

  /** Every stock with the pieces that are cut from it, in the order of the job's stocks. */
  private async layStocks(
    job: Job,
    designs: readonly DesignResult[],
    hooks: NestHooks,
    lay: (
      pieces: readonly JobPiece[],
      own: Job,
      key: string,
      hooks: NestHooks & { readonly onBest: (best: BestSoFar, problem: NestProblem) => void },
      stockId: string,
    ) => Promise<NestStageResult>,
  ): Promise<StockLayout[]> {
    const all = jobPiecesOf(designs, job);
    checkPins(all, job);
    const ids = stockIdsOf(job).filter((id) => all.some((piece) => piece.stockId === id));
    const copies = (pieces: readonly JobPiece[]) => pieces.reduce((sum, piece) => sum + piece.signs.length, 0);
    const laid: StockLayout[] = [];
    let done = 0;
    for (const stockId of ids) {
      const own = jobOfStock(job, stockId);
      const pieces = all.filter((piece) => piece.stockId === stockId);
      const share = copies(pieces) / copies(all);
      const before = [...laid];
      const from = done;
      const nested = await lay(
        pieces,
        own,
        stockKey(job, stockId, pieces),
        {
          ...hooks,
          onProgress: (part, message) => hooks.onProgress?.(from + share * part, message),
          onBest: (best, problem) => hooks.onBest?.(best, problem, stockId, before),
        },
        stockId,
      );
      done += share;
      laid.push({ stockId, job: own, pieces, nested, layout: withSignNumbers(nested.layout, pieces) });
    }
    return laid;
  }

  private async search(
    pieces: readonly JobPiece[],
    job: Job,
    start: Layout | undefined,
    {
      signal,
      endSearch,
      onBest,
      onProgress,
    }: NestHooks & { readonly onBest: (best: BestSoFar, problem: NestProblem) => void },
  ): Promise<NestStageResult> {
    const problem = nestProblemOf(pieces, job);
    const ends = [signal, endSearch].filter((one) => one !== undefined);
    const result = await this.run(problem, job.effort, {
      seed: job.seed,
      ...(ends.length === 0 ? {} : { signal: AbortSignal.any(ends) }),
      onProgress: (progress) => onProgress?.(progress.done, progress.message),
      onBest: (best) => onBest(best, problem),
      ...(start === undefined ? {} : { start }),
    });
    throwIfStopped(signal);
    return { problem, result, layout: result.layout };
  }

  private async verdictOn({ nested, pieces, job }: StockLayout, { signal }: StageHooks): Promise<Verdict> {
    await listenForStop(signal);
    const verdict = checkStage(nested.layout, nested, pieces, job);
    const fault = checkFault(verdict, nested.layout);
    if (fault !== null) throw fault;
    await listenForStop(signal);
    return verdict;
  }
}

/** A fault in one of several designs says in which. */
export async function ofDesign<T>({ id }: Design, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (id !== '' && error instanceof Error && (error as { code?: unknown }).code !== 'cancelled')
      error.message = `Design "${id}": ${error.message}`;
    throw error;
  }
}
