import { type BatchRow, studyBatches } from '@underlap/job/batch-study';
import type { StageName } from '@underlap/job/context';
import type { Job } from '@underlap/job/document';
import { JobError } from '@underlap/job/error';
import { type FoundLayout, Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import { signOf } from '@underlap/job/sign-stage';
import { stageKeys } from '@underlap/job/stage-keys';
import type { NestStageResult, SplitResult } from '@underlap/job/stages';
import { type BestSoFar, nest } from '@underlap/nest/nest';
import type { NestPool } from '@underlap/nest/pool';
import type { NestProblem, Verdict } from '@underlap/nest/problem';
import type { KnownKeys, WorkEvent } from '../state/results.ts';
import type { FileContent, TouchAnswer, TouchQuestion } from './api.ts';
import { faultOf } from './fault.ts';
import { archiveContent, type FilesMade, fileContent, makeFiles } from './files-run.ts';
import { Hands } from './hands.ts';
import { boardsView, kindViews, splitView } from './plan-views.ts';
import { artworkView, stackView } from './sign-views.ts';
import { type BoardsView, type KindView, STAGES, type StageId, type StageViews } from './views.ts';

/** Better layouts are shown at most this often, ms. */
const SHOW_EVERY_MS = 150;

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
  showBest: ((best: BestSoFar, problem: NestProblem) => void) | null;
}

/** Works through jobs inside the worker and tells the page what came out. */
export class Workbench {
  private readonly pipeline: Pipeline;
  readonly hands: Hands;
  private current: Run | null = null;
  private readonly side = new Set<AbortController>();
  private latest: Job | null = null;
  /** Files with their pictures, of the job that they were made for. */
  private made: { readonly key: string; readonly files: FilesMade } | null = null;

  /** @param pool - threads to search in; null = this one. */
  constructor(pool: NestPool | null) {
    this.pipeline = new Pipeline((problem, effort, context) =>
      nest(problem, effort, pool === null ? context : { ...context, pool }),
    );
    this.hands = new Hands(this.pipeline);
  }

  /** The job that was planned last. */
  get job(): Job | null {
    return this.latest;
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

  /** Plan a job; what the page has already is only said to be unchanged. */
  async plan(job: Job, known: KnownKeys, found: FoundLayout | null, tell: (event: WorkEvent) => void): Promise<void> {
    this.current?.all.abort();
    const run: Run = { all: new AbortController(), search: new AbortController(), hasLayout: false, showBest: null };
    this.current = run;
    this.latest = job;
    if (found !== null) this.pipeline.remember(found);
    const keys = viewKeys(job);
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
          await this.show(stage, job, keys, isKnown, tellLive);
        },
        onWorking: (stage, done, message) => {
          at = SHOWN_IN[stage];
          if (!isKnown(at)) tellLive({ kind: 'working', stage: at, done, message });
        },
        onBest: (best, problem) => {
          run.hasLayout = true;
          run.showBest?.(best, problem);
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
    keys: ViewKeys,
    isKnown: (stage: StageId) => boolean,
    tell: (event: WorkEvent) => void,
  ): Promise<void> {
    const done = <S extends StageId>(id: S, view: StageViews[S]): void =>
      tell({ kind: 'done', stage: id, key: keys[id], view } as WorkEvent);
    const { pipeline } = this;
    switch (stage) {
      case 'read':
        if (!isKnown('artwork')) done('artwork', await this.artwork(job));
        return;
      case 'sign':
        if (!isKnown('stack')) done('stack', stackView(await pipeline.sign(job), job));
        return;
      case 'split':
        if (!isKnown('split')) done('split', splitView(await pipeline.split(job), await pipeline.sign(job), job));
        return;
      case 'cut':
        refuseUnsplit(await pipeline.split(job));
        return;
      case 'nest': {
        const nested = await pipeline.nest(job);
        if (nested === null) return;
        tell({ kind: 'found', stage: 'boards', found: { key: stageKeys(job).nest, result: nested.result } });
        return;
      }
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
    if (this.made?.key === stageKeys(job).files) this.made = null;
  }

  /** The drawing as read; while its size is open, in user units. */
  private async artwork(job: Job): Promise<StageViews['artwork']> {
    const drawing = await this.pipeline.read(job);
    if (drawing.size.kind === 'known') return artworkView(drawing, await this.pipeline.sign(job));
    return artworkView(drawing, signOf(drawing, job.artwork));
  }

  private async boards(job: Job): Promise<BoardsView> {
    const nested = await this.pipeline.nest(job);
    if (nested === null) throw new JobError('internal', 'there is no layout');
    return laidView(await this.kinds(job), nested, await this.pipeline.check(job));
  }

  private async kinds(job: Job): Promise<KindView[]> {
    return kindViews((await this.pipeline.cut(job)).pieces, await this.pipeline.sign(job));
  }

  /** Shows better layouts as they come, not more often than an eye can follow. */
  private async bestShower(job: Job, tell: (event: WorkEvent) => void) {
    const { nest: key } = stageKeys(job);
    const kinds = await this.kinds(job);
    let shownAt = Number.NEGATIVE_INFINITY;
    return (best: BestSoFar, problem: NestProblem): void => {
      const now = performance.now();
      if (now - shownAt < SHOW_EVERY_MS) return;
      shownAt = now;
      const { layout } = best;
      const result = { ...best, isProvedMinimal: false };
      tell({ kind: 'view', stage: 'boards', view: boardsView(kinds, problem, layout, result, 'running', null) });
      tell({ kind: 'best', stage: 'boards', found: { key, result: { ...result, endedBy: 'cancelled' } } });
    };
  }

  /** Files and pictures of a job, after its independent check. */
  private async files(job: Job): Promise<FilesMade> {
    const { files: key } = stageKeys(job);
    if (this.made?.key === key) return this.made.files;
    const { drawing, sign, split, verdict, report, files } = await planJob(job, { pipeline: this.pipeline });
    refuseUnsplit(split);
    if (verdict === null) throw new JobError('internal', 'there is no layout');
    const made = await makeFiles({ job, drawing, sign, verdict, report, files });
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

  async archive(): Promise<FileContent> {
    return archiveContent(await this.latestFiles());
  }

  /** The layout of another job beside the one on the page. */
  layOut(job: Job): Promise<BoardsView> {
    return this.beside(async (signal) => {
      refuseUnsplit(await this.pipeline.split(job, { signal }));
      await this.pipeline.check(job, { signal });
      return this.boards(job);
    });
  }

  /** The same job for several batch sizes; boards that run out end it with a fault. */
  batches(job: Job, sizes: readonly number[], tell: (rows: readonly BatchRow[]) => void): Promise<void> {
    return this.beside(async (signal) => {
      refuseUnsplit(await this.pipeline.split(job, { signal }));
      await studyBatches(
        { ...job, effort: 'quick' },
        sizes,
        { signal },
        {
          pipeline: this.pipeline,
          onRow: (row, _, soFar) => {
            if (row.unplaced > 0)
              throw new JobError('too-small', `There are not enough boards for ${row.batch} signs.`);
            tell(soFar);
          },
        },
      );
    });
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
  readonly onBest: (best: BestSoFar, problem: NestProblem) => void;
}

type ViewKeys = Readonly<Record<StageId, string>>;

/** Keys of what the page shows: equal keys, equal pictures. */
function viewKeys(job: Job): ViewKeys {
  const { sign, split, cut, nest: layout, files } = stageKeys(job);
  return {
    artwork: sign,
    stack: sign + String(job.marks.guideInset) + String(job.marks.guides),
    split,
    boards: layout + cut,
    files,
  };
}

function laidView(kinds: readonly KindView[], nested: NestStageResult, verdict: Verdict | null): BoardsView {
  return boardsView(kinds, nested.problem, nested.layout, nested.result, nested.result.endedBy, verdict);
}

/** @throws JobError `too-small` naming the parts that cannot be made to fit. */
function refuseUnsplit(split: SplitResult): void {
  const stuck = split.parts.filter((part) => part.outcome.kind === 'cannot');
  const [first] = stuck;
  if (first === undefined || first.outcome.kind !== 'cannot') return;
  const more = stuck.length > 1 ? ` ${stuck.length - 1} more do not fit either.` : '';
  throw new JobError('too-small', `${first.partId} does not fit: ${first.outcome.why.message}${more}`, {
    part: first.partId,
  });
}
