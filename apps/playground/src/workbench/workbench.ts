import { pricesOf, studyBatches } from '@underlap/job/batch-study';
import type { StageName } from '@underlap/job/context';
import { type Design, designsOf } from '@underlap/job/designs';
import type { Job } from '@underlap/job/document';
import { JobError } from '@underlap/job/error';
import { jobPiecesOf, withSignNumbers } from '@underlap/job/job-pieces';
import type { PackBed } from '@underlap/job/pack/plan-packs';
import { type FoundLayout, type NestHooks, Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import { notFittingOf } from '@underlap/job/report-messages';
import type { Shelf } from '@underlap/job/shelf';
import { signNeedsOf } from '@underlap/job/shop-needs';
import { faultsOf } from '@underlap/job/sign-faults';
import { signOf } from '@underlap/job/sign-stage';
import { jobKeys, stageKeys, stockKey } from '@underlap/job/stage-keys';
import type { DesignResult, StockLayout } from '@underlap/job/stages';
import { jobOfStock } from '@underlap/job/stock-of';
import { nest } from '@underlap/nest/nest';
import type { NestPool } from '@underlap/nest/pool';
import type { Verdict } from '@underlap/nest/problem';
import type { FileContent, LaidOut, ShelfHelp, TellBatches, TouchAnswer, TouchQuestion } from '../workers/api.ts';
import type { KnownKeys, WorkEvent } from '../workers/events.ts';
import { faultOf, WorkFault } from '../workers/fault.ts';
import { type BoardsView, STAGES, type StageId, type StageViews } from '../workers/views.ts';
import { couponContent } from './coupon-run.ts';
import { archiveContent, type FilesMade, fileContent, makeFiles } from './files-run.ts';
import { Hands } from './hands.ts';
import { packsContent } from './packs-run.ts';
import { boardsView, kindViews, type StockBoards, splitView, verdictOfAll } from './plan-views.ts';
import { bookedShelf, helpOfShelf } from './shelf-run.ts';
import { artworkView, stackView, withLosses } from './sign-views.ts';

type OnBest = NonNullable<NestHooks['onBest']>;

/** Better layouts are shown at most this often, ms. */
const SHOW_EVERY_MS = 150;

/** A sign of more parts is shown before its guides and fillers are worked out. */
const SHOWN_AT_ONCE = 100;

/** Which of the page's stages shows what a stage of the job makes. */
const SHOWN_IN: Readonly<Record<StageName, StageId>> = {
  read: 'artwork',
  sign: 'stack',
  split: 'split',
  cut: 'boards',
  nest: 'boards',
  check: 'boards',
  files: 'files',
};

/** One run through the stages: `all` ends everything, `search` only the search, whose best layout is kept. */
interface Run {
  readonly all: AbortController;
  readonly search: AbortController;
  /** Is there a layout that a stop could keep? */
  hasLayout: boolean;
  /** Set for the pieces as soon as they are cut, so that layouts can be shown the moment they come. */
  showBest: OnBest | null;
}

/** Works through jobs inside the worker and tells the page what came out. */
export class Workbench {
  private readonly pipeline: Pipeline;
  readonly hands: Hands;
  private current: Run | null = null;
  private readonly side = new Set<AbortController>();
  private latest: Job | null = null;
  private looksAt: string | null = null;
  /** Files with their pictures, of the job that they were made for. */
  private made: { readonly key: string; readonly files: FilesMade } | null = null;

  /** @param pool - threads to search in; null = this one. */
  constructor(pool: NestPool | null) {
    this.pipeline = new Pipeline((problem, effort, context) =>
      nest(problem, effort, pool === null ? context : { ...context, pool }),
    );
    this.hands = new Hands(this.pipeline);
  }

  /** What was planned last, as the design that is looked at sees it. */
  get job(): Job | null {
    return this.latest === null ? null : designFor(this.latest, this.looksAt).job;
  }

  stopSearch(): void {
    if (this.current?.hasLayout === true) this.current.search.abort();
  }

  cancel(): void {
    this.current?.all.abort();
    this.stopTrying();
    this.current = null;
  }

  /** End what is laid out beside the plan on the page. */
  stopTrying(): void {
    for (const abort of this.side) abort.abort();
  }

  /**
   * Plan a job; what the page has already is only said to be unchanged.
   * @param looksAt - the design whose drawing, stack and seams are shown; null = the first.
   */
  async plan(
    job: Job,
    known: KnownKeys,
    found: FoundLayout | null,
    tell: (event: WorkEvent) => void,
    looksAt: string | null = null,
  ): Promise<void> {
    this.current?.all.abort();
    const run: Run = { all: new AbortController(), search: new AbortController(), hasLayout: false, showBest: null };
    this.current = run;
    this.latest = job;
    // An older page may have kept it in another form: then the search is made again.
    if (Array.isArray(found?.results)) this.pipeline.remember(found);
    const design = designFor(job, looksAt);
    this.looksAt = looksAt;
    const keys = viewKeys(job, design.job);
    const isKnown = (stage: StageId): boolean => known[stage] === keys[stage];
    const tellLive = (event: WorkEvent): void => {
      if (!run.all.signal.aborted) tell(event);
    };
    const unchanged = STAGES.filter(isKnown);
    for (const stage of unchanged) tellLive({ kind: 'unchanged', stage });
    if (unchanged.length === STAGES.length) return;
    let at: StageId = 'artwork';
    try {
      await this.run(job, run, {
        onStage: async (stage) => {
          if (stage === 'cut') run.showBest = await this.bestShower(job, tellLive);
          await this.show(stage, job, design, keys, isKnown, tellLive);
        },
        onWorking: (stage, done, message) => {
          at = SHOWN_IN[stage];
          if (!isKnown(at)) tellLive({ kind: 'working', stage: at, done, message });
        },
        onBest: (...best) => {
          run.hasLayout = true;
          run.showBest?.(...best);
        },
      });
    } catch (error) {
      tellLive({ kind: 'failed', stage: at, fault: faultOf(error) });
    }
  }

  private async run(job: Job, run: Run, watch: Watch): Promise<void> {
    await planJob(job, {
      pipeline: this.pipeline,
      signal: run.all.signal,
      endSearch: run.search.signal,
      onProgress: ({ stage, share, message }) => {
        // Cutting and checking take moments beside the search: the bar of the boards is the search's.
        const done = stage === 'cut' ? 0 : stage === 'check' ? 1 : share;
        watch.onWorking(stage, done, message ?? '');
      },
      onBest: watch.onBest,
      onStage: watch.onStage,
    });
  }

  /** Tell the page what a stage has made, unless it has it. */
  private async show(
    stage: StageName,
    job: Job,
    { job: own }: Design,
    keys: ViewKeys,
    isKnown: (stage: StageId) => boolean,
    tell: (event: WorkEvent) => void,
  ): Promise<void> {
    const done = <S extends StageId>(id: S, view: StageViews[S]): void =>
      tell({ kind: 'done', stage: id, key: keys[id], view } as WorkEvent);
    const { pipeline } = this;
    switch (stage) {
      case 'read':
        if (!isKnown('artwork')) done('artwork', await this.artwork(own));
        return;
      case 'sign':
        if (!isKnown('stack')) {
          const sign = await pipeline.sign(own);
          if (sign.parts.length > SHOWN_AT_ONCE) {
            tell({ kind: 'view', stage: 'stack', view: stackView(sign, own, false) });
          }
          done('stack', stackView(sign, own));
        }
        return;
      case 'split':
        if (!isKnown('split')) done('split', splitView(await pipeline.split(own), await pipeline.sign(own), own));
        return;
      case 'cut':
        refuseUnsplit(await pipeline.designs(job));
        return;
      case 'nest':
        tell({ kind: 'found', stage: 'boards', found: await pipeline.foundFor(job) });
        return;
      case 'check':
        if (!isKnown('boards')) done('boards', await this.boards(job));
        return;
      case 'files':
        if (!isKnown('files')) done('files', (await this.files(job)).view);
        return;
    }
  }

  /** Give up the layout of a job and the files made from it. */
  forgetLayout(job: Job): void {
    this.pipeline.forgetLayout(job);
    if (this.made?.key === jobKeys(job).files) this.made = null;
  }

  /** The drawing as read; while its size is open, in user units. */
  private async artwork(job: Job): Promise<StageViews['artwork']> {
    const drawing = await this.pipeline.read(job);
    const isSized = drawing.size.kind === 'known';
    const sign = isSized ? await this.pipeline.sign(job) : signOf(drawing, job.artwork);
    return withLosses(artworkView(drawing, sign), faultsOf(sign, job));
  }

  private async boards(job: Job): Promise<BoardsView> {
    const stocks = await this.pipeline.nest(job);
    if (stocks === null) throw new JobError('internal', 'there is no layout');
    const verdicts = await this.pipeline.check(job);
    const boards = stocks.map((stock, at) => laidBoards(job, stock, verdicts[at] ?? null));
    return boardsView(kindViews(await this.pipeline.designs(job)), boards);
  }

  /** Shows better layouts as they come, not more often than an eye can follow. */
  private async bestShower(job: Job, tell: (event: WorkEvent) => void): Promise<OnBest> {
    const { nest: key } = jobKeys(job);
    const designs = await this.pipeline.designs(job);
    const kinds = kindViews(designs);
    const pieces = jobPiecesOf(designs, job);
    let shownAt = Number.NEGATIVE_INFINITY;
    return (best, problem, stockId, before) => {
      const now = performance.now();
      if (now - shownAt < SHOW_EVERY_MS) return;
      shownAt = now;
      const own = pieces.filter((piece) => piece.stockId === stockId);
      const layout = withSignNumbers(best.layout, own);
      const result = { ...best, isProvedMinimal: false };
      const running: StockBoards = {
        stockId,
        job: jobOfStock(job, stockId),
        problem,
        layout,
        result,
        endedBy: 'running',
        verdict: null,
      };
      const boards = [...before.map((stock) => laidBoards(job, stock, null)), running];
      tell({ kind: 'view', stage: 'boards', view: boardsView(kinds, boards) });
      const results = [
        ...before.map((stock) => ({ key: stockKey(job, stock.stockId, stock.pieces), result: stock.nested.result })),
        { key: stockKey(job, stockId, own), result: { ...result, endedBy: 'cancelled' as const } },
      ];
      tell({ kind: 'best', stage: 'boards', found: { key, results } });
    };
  }

  /** Files and pictures of a job, after its independent check. */
  private async files(job: Job): Promise<FilesMade> {
    const { files: key } = jobKeys(job);
    if (this.made?.key === key) return this.made.files;
    const { designs, verdicts, report, files } = await planJob(job, { pipeline: this.pipeline });
    refuseUnsplit(designs);
    const verdict = verdictOfAll(verdicts);
    if (verdict === null) throw new JobError('internal', 'there is no layout');
    const made = await makeFiles({ job, designs, verdict, report, files });
    this.made = { key, files: made };
    return made;
  }

  private latestFiles(): Promise<FilesMade> {
    if (this.latest === null) throw new JobError('internal', 'there is no job yet');
    return this.files(this.latest);
  }

  async touch(question: TouchQuestion): Promise<TouchAnswer> {
    if (this.latest === null) throw new JobError('internal', 'there is no job yet');
    return this.hands.touch(this.latest, question);
  }

  async file(name: string): Promise<FileContent> {
    const content = fileContent(await this.latestFiles(), name);
    if (content === null) throw new JobError('internal', `there is no file ${name}`);
    return content;
  }

  /** A sheet of small joints from which kerf and fit are read. */
  async coupon(): Promise<FileContent> {
    if (this.latest === null) throw new JobError('internal', 'there is no job yet');
    return couponContent(this.latest);
  }

  async archive(): Promise<FileContent> {
    return archiveContent(await this.latestFiles());
  }

  /** The layout of another job beside the one on the page. */
  layOut(job: Job): Promise<LaidOut> {
    return this.beside(async (signal) => {
      refuseUnsplit(await this.pipeline.designs(job, { signal }));
      const { report } = await planJob(job, { pipeline: this.pipeline, signal });
      const { currency, machineSeconds } = report.cost;
      const costPerSign = report.cost.rows.at(-1)?.costPerSign ?? 0;
      return { boards: await this.boards(job), run: { costPerSign, currency, machineSeconds } };
    });
  }

  /** The same job for several batch sizes; boards that run out end it with a fault. */
  batches(job: Job, sizes: readonly number[], tell: TellBatches): Promise<void> {
    return this.beside(async (signal) => {
      const designs = await this.pipeline.designs(job, { signal });
      refuseUnsplit(designs);
      const sign = signNeedsOf(designs);
      await studyBatches(
        { ...job, effort: 'quick' },
        sizes,
        { signal },
        {
          pipeline: this.pipeline,
          onRow: (row, _, soFar) => {
            if (row.unplaced > 0)
              throw new WorkFault({
                code: 'not-enough-boards',
                message: 'there are not enough boards',
                place: null,
                values: { n: row.batch },
              });
            tell(soFar, pricesOf(soFar, sign, job));
          },
        },
      );
    });
  }

  shelfHelp(job: Job, shelf: Shelf): Promise<ShelfHelp> {
    return this.beside((signal) => helpOfShelf(job, shelf, this.pipeline, signal));
  }

  async bookShelf(shelf: Shelf, name: string): Promise<{ shelf: Shelf; file: FileContent }> {
    if (this.latest === null) throw new JobError('internal', 'there is no job yet');
    const { report } = await planJob(this.latest, { pipeline: this.pipeline });
    return bookedShelf(shelf, report, name);
  }

  /** Packs of a job for several beds. */
  packs(job: Job, beds: readonly PackBed[], tell: (bed: number) => void): Promise<FileContent> {
    return this.beside((signal) => packsContent(job, beds, this.pipeline, signal, tell));
  }

  /** Work that goes on beside the plan and ends with `stopTrying`. */
  private async beside<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
    const abort = new AbortController();
    this.side.add(abort);
    try {
      return await work(abort.signal);
    } finally {
      this.side.delete(abort);
    }
  }
}

/** What a run tells as it goes. */
interface Watch {
  readonly onStage: (stage: StageName) => Promise<void>;
  readonly onWorking: (stage: StageName, done: number, message: string) => void;
  readonly onBest: OnBest;
}

type ViewKeys = Readonly<Record<StageId, string>>;

/** Keys of what the page shows: equal keys, equal pictures. */
function viewKeys(job: Job, own: Job): ViewKeys {
  const { sign, split } = stageKeys(own);
  const { nest: layout, files } = jobKeys(job);
  const cut = designsOf(job)
    .map((design) => stageKeys(design.job).cut)
    .join('');
  return {
    artwork: sign,
    stack: sign + String(own.marks.guideInset) + String(own.marks.guides),
    split,
    boards: layout + cut,
    files,
  };
}

function laidBoards(job: Job, { stockId, nested, layout }: StockLayout, verdict: Verdict | null): StockBoards {
  const { problem, result } = nested;
  return { stockId, job: jobOfStock(job, stockId), problem, layout, result, endedBy: result.endedBy, verdict };
}

/** The design that a person looks at; the first when there is none of that name. */
function designFor(job: Job, id: string | null): Design {
  const designs = designsOf(job);
  return designs.find((design) => design.id === id) ?? designs[0]!;
}

/** @throws WorkFault `parts-do-not-fit` naming the parts that cannot be made to fit. */
function refuseUnsplit(designs: readonly Pick<DesignResult, 'design' | 'split'>[]): void {
  const stuck = notFittingOf(designs, null);
  const [first] = stuck;
  if (first === undefined) return;
  throw new WorkFault({
    code: 'parts-do-not-fit',
    message: first.message,
    place: first.part,
    values: { part: first.part, why: first.message, n: stuck.length - 1 },
  });
}
