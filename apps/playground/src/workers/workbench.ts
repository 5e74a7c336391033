import { type BatchRow, concludedBatches } from '@underlap/job/batch-study';
import type { Job } from '@underlap/job/document';
import { JobError } from '@underlap/job/error';
import { inPieceFrames } from '@underlap/job/nest-stage';
import { signOf } from '@underlap/job/sign-stage';
import type { CutPiece } from '@underlap/job/stages';
import type { BestSoFar } from '@underlap/nest/nest';
import type { NestPool } from '@underlap/nest/pool';
import type { NestProblem } from '@underlap/nest/problem';
import type { FoundLayout, KnownKeys, WorkEvent } from '../state/results.ts';
import type { FileContent, TouchAnswer, TouchQuestion } from './api.ts';
import { faultOf } from './fault.ts';
import { archiveContent, type FilesMade, fileContent, makeFiles } from './files-run.ts';
import { Hands } from './hands.ts';
import { Memo } from './memo.ts';
import { boardsView, kindViews, splitView } from './plan-views.ts';
import { artworkView, stackView } from './sign-views.ts';
import { type StageKeys, stageKeys } from './stage-keys.ts';
import { type Laid, StagesRun } from './stages-run.ts';
import type { BoardsView, KindView, StageId, StageViews } from './views.ts';

/** Better layouts are shown at most this often, ms. */
const SHOW_EVERY_MS = 150;

/** One run through the stages: `all` ends everything, `search` only the search, whose best layout is kept. */
interface Run {
  readonly all: AbortController;
  readonly search: AbortController;
  /** Is there a layout that a stop could keep? */
  hasLayout: boolean;
}

/** Works through jobs inside the worker and tells the page what came out. */
export class Workbench {
  readonly stages = new StagesRun();
  readonly hands = new Hands(this.stages);
  private current: Run | null = null;
  private readonly side = new Set<AbortController>();
  private readonly files = new Memo<FilesMade>(3);
  private latest: Job | null = null;

  constructor(private readonly pool: NestPool | null) {}

  /** The job that was planned last. */
  get job(): Job | null {
    return this.latest;
  }

  stopSearch(): void {
    if (this.current?.hasLayout === true) this.current.search.abort();
  }

  cancel(): void {
    this.current?.all.abort();
    this.current?.search.abort();
    this.stopTrying();
    this.current = null;
  }

  /** End what is laid out beside the plan on the page. */
  stopTrying(): void {
    for (const abort of this.side) abort.abort();
  }

  async plan(job: Job, known: KnownKeys, found: FoundLayout | null, tell: (event: WorkEvent) => void): Promise<void> {
    this.current?.all.abort();
    this.current?.search.abort();
    const run: Run = { all: new AbortController(), search: new AbortController(), hasLayout: false };
    this.current = run;
    this.latest = job;
    if (found !== null) this.stages.remember(found);
    const keys = stageKeys(job);
    const step = async <S extends StageId>(
      stage: S,
      key: string,
      make: () => Promise<StageViews[S]> | StageViews[S],
    ): Promise<boolean> => {
      if (run.all.signal.aborted) return false;
      if (known[stage] === key) {
        tell({ kind: 'unchanged', stage });
        return true;
      }
      try {
        tell({ kind: 'working', stage, done: 0, message: '' });
        const view = await make();
        if (run.all.signal.aborted) return false;
        tell({ kind: 'done', stage, key, view } as WorkEvent);
        return true;
      } catch (error) {
        if (!run.all.signal.aborted) tell({ kind: 'failed', stage, fault: faultOf(error) });
        return false;
      }
    };
    const progress = (stage: StageId) => (done: number, message: string) => {
      if (!run.all.signal.aborted) tell({ kind: 'working', stage, done, message });
    };
    const hooks = { signal: run.all.signal, onProgress: progress('split') };

    (await step('artwork', keys.sign, () => this.artwork(job, keys))) &&
      (await step('stack', keys.sign + String(job.marks.guideInset) + String(job.marks.guides), () =>
        stackView(this.stages.sign(job, keys), job),
      )) &&
      (await step('split', keys.split, async () => splitView(await this.stages.split(job, keys, hooks)))) &&
      (await step('boards', keys.nest + keys.cut, () => this.boards(job, keys, run, tell))) &&
      (await step('files', keys.files, async () => (await this.make(job, keys, run.all.signal)).view));
  }

  /** Give up the layout of a job and the files made from it. */
  forgetLayout(job: Job): void {
    this.stages.forgetLayout(job);
    this.files.forget(stageKeys(job).files);
  }

  /** The drawing as read; while its size is open, in user units. */
  private artwork(job: Job, keys: StageKeys): StageViews['artwork'] {
    const drawing = this.stages.read(job, keys);
    if (drawing.size.kind === 'known') return artworkView(drawing, this.stages.sign(job, keys), job);
    return artworkView(drawing, signOf(drawing, job.artwork), job);
  }

  private async boards(job: Job, keys: StageKeys, run: Run, tell: (event: WorkEvent) => void): Promise<BoardsView> {
    const hooks = { signal: run.all.signal };
    refuseUnsplit(await this.stages.split(job, keys, hooks));
    const { pieces } = await this.stages.cut(job, keys, hooks);
    const kinds = kindViews(pieces, this.stages.sign(job, keys));
    const laid = await this.stages.nest(job, keys, {
      signal: run.search.signal,
      pool: this.pool,
      onBest: this.showBest(kinds, pieces, keys.nest, run, tell),
      onProgress: (done, message) => {
        if (!run.all.signal.aborted) tell({ kind: 'working', stage: 'boards', done, message });
      },
    });
    tell({ kind: 'found', stage: 'boards', found: { key: keys.nest, result: laid.nested.result } });
    return laidView(kinds, laid);
  }

  /** Shows better layouts as they come, not more often than an eye can follow. */
  private showBest(
    kinds: readonly KindView[],
    pieces: readonly CutPiece[],
    key: string,
    run: Run,
    tell: (event: WorkEvent) => void,
  ) {
    let shownAt = Number.NEGATIVE_INFINITY;
    return (best: BestSoFar, problem: NestProblem): void => {
      run.hasLayout = true;
      const now = performance.now();
      if (run.all.signal.aborted || now - shownAt < SHOW_EVERY_MS) return;
      shownAt = now;
      const layout = inPieceFrames(best.layout, pieces);
      const result = { ...best, isProvedMinimal: false };
      tell({ kind: 'view', stage: 'boards', view: boardsView(kinds, problem, layout, result, 'running', null) });
      tell({ kind: 'best', stage: 'boards', found: { key, result: { ...result, endedBy: 'cancelled' } } });
    };
  }

  private async make(job: Job, keys: StageKeys, signal: AbortSignal): Promise<FilesMade> {
    const known = this.files.get(keys.files);
    if (known !== undefined) return known;
    const laid = await this.stages.nest(job, keys, { signal, pool: this.pool });
    const made = await makeFiles(job, keys, this.stages, laid, { signal });
    this.files.set(keys.files, made);
    return made;
  }

  /** The files of the last job, after its independent check. */
  private async checkedFiles(): Promise<FilesMade> {
    if (this.latest === null) throw new JobError('internal', 'there is no job yet');
    return this.make(this.latest, stageKeys(this.latest), new AbortController().signal);
  }

  async touch(question: TouchQuestion): Promise<TouchAnswer> {
    if (this.latest === null) throw new JobError('internal', 'there is no job yet');
    return this.hands.touch(this.latest, question);
  }

  async file(name: string): Promise<FileContent> {
    const content = fileContent(await this.checkedFiles(), name);
    if (content === null) throw new JobError('internal', `there is no file ${name}`);
    return content;
  }

  async archive(): Promise<FileContent> {
    return archiveContent(await this.checkedFiles());
  }

  /** The layout of another job beside the one on the page. */
  async layOut(job: Job): Promise<BoardsView> {
    const abort = new AbortController();
    this.side.add(abort);
    try {
      const keys = stageKeys(job);
      refuseUnsplit(await this.stages.split(job, keys, abort));
      const { pieces } = await this.stages.cut(job, keys, abort);
      const laid = await this.stages.nest(job, keys, { signal: abort.signal, pool: this.pool });
      if (abort.signal.aborted) throw new JobError('cancelled', 'Stopped.');
      return laidView(kindViews(pieces, this.stages.sign(job, keys)), laid);
    } finally {
      this.side.delete(abort);
    }
  }

  /** The same job for several batch sizes, one after the other. */
  async batches(job: Job, sizes: readonly number[], tell: (rows: readonly BatchRow[]) => void): Promise<void> {
    const rows: BatchRow[] = [];
    for (const batch of sizes) {
      const { sheets, unplaced, lowerBound, isProvedMinimal, ...boards } = await this.layOut({
        ...job,
        batch,
        pinned: [],
        effort: 'quick',
      });
      if (unplaced.length > 0) throw new JobError('too-small', `There are not enough boards for ${batch} signs.`);
      rows.push({
        batch,
        boards: sheets.length,
        boardsLowerBound: lowerBound.boards,
        boardsPerSign: sheets.length / batch,
        yield: boards.yield,
        waste: 1 - boards.yield,
        isProvedMinimal,
        isSweetSpot: false,
        unplaced: 0,
      });
      tell(concludedBatches(rows, job));
    }
  }
}

function laidView(kinds: readonly KindView[], { nested, verdict }: Laid): BoardsView {
  return boardsView(kinds, nested.problem, nested.layout, nested.result, nested.result.endedBy, verdict);
}

/** @throws JobError `too-small` naming the parts that cannot be made to fit. */
function refuseUnsplit(split: Awaited<ReturnType<StagesRun['split']>>): void {
  const stuck = split.parts.filter((part) => part.outcome.kind === 'cannot');
  const [first] = stuck;
  if (first === undefined || first.outcome.kind !== 'cannot') return;
  const more = stuck.length > 1 ? ` ${stuck.length - 1} more do not fit either.` : '';
  throw new JobError('too-small', `${first.partId} does not fit: ${first.outcome.why.message}${more}`, {
    part: first.partId,
  });
}
