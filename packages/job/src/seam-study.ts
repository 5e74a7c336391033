import type { WorkContext } from '@underlap/geometry/context';
import { regionArea, regionBounds } from '@underlap/geometry/region';
import { priceRow } from '@underlap/shop/price';
import { equalParts } from '@underlap/stack/equal-parts';
import type { Part } from '@underlap/stack/sign';
import { stepHooks, untilStopped, yieldOf } from './batch-study.ts';
import { counted } from './counted.ts';
import type { Job, SeamWish } from './document.ts';
import { Pipeline, type StageHooks } from './pipeline.ts';
import { notFittingOf } from './report-messages.ts';
import { batchNeedsOf, signNeedsOf, timesOf } from './shop-needs.ts';
import { wishFor } from './split-stage.ts';
import type { DesignResult } from './stages.ts';
import { throwIfStopped } from './stop.ts';
import { effortOfRow } from './study-effort.ts';

/** Parts that fit as they are, tried in pieces: the largest ones that leave most of their box empty. */
const MOST_WHOLE_PARTS = 2;

/** Pieces that a part which fits is tried in. */
const PIECES_OF_WHOLE = [2, 3, 4] as const;

/** A part whose box is smaller than this share of the largest one's is not worth a joint. */
const LEAST_BOX_SHARE = 0.25;

/** What one way of splitting comes to: the whole job laid out with it. */
export interface SeamRow {
  /** Part that is split in another way, with its design before it ("lighthouse/hoop"); null for the job as it is. */
  readonly part: string | null;
  /** Its name, and how many parts are equal to it and are split alike. */
  readonly name: string;
  readonly alike: number;
  /** What the job says for it: under `seams.parts` of the job or of its design. */
  readonly wish: Pick<SeamWish, 'plan' | 'morePieces'> | null;
  /** Pieces of the part, and joints of the whole sign. */
  readonly pieces: number;
  readonly joints: number;
  /** Length of all seams of a sign that shows, and that nothing holds but its knobs, mm. */
  readonly showingMm: number;
  readonly looseMm: number;
  readonly boards: number;
  readonly boardsLowerBound: number;
  readonly yield: number;
  /** Boards alone, for the whole batch, in the job's currency. */
  readonly boardsPrice: number;
  /** Everything, for one sign. */
  readonly costPerSign: number;
  /** Machine and hand, for one sign. */
  readonly minutesPerSign: number;
  /** Why it cannot be laid out; null when all is well. */
  readonly problem: string | null;
}

/** How a study of seams is run and watched. */
export interface SeamStudyOptions {
  /** Where signs and pieces come from, and who runs the search; default: a fresh one. */
  readonly pipeline?: Pipeline;
  /** Each row as it is made, with how many there are then and will be. */
  readonly onRow?: (row: SeamRow, made: number, count: number) => void;
}

/**
 * Lay the job out as it is, with every other seam plan of its split parts, and with large parts that fit cut nevertheless: what a
 * joint more saves.
 * @returns the job as it is first, then the other ways in the order of the sign; after a stop those made until then. Nothing is chosen.
 * @throws JobError `cancelled` when it is stopped before the first row.
 * @remarks One split of a part and one nest run a row, with a share of the job's effort (`effortOfRow`): a board less is found, a
 * board less that takes a thorough search may not be.
 */
export async function studySeams(
  job: Job,
  context: Omit<WorkContext, 'seed'>,
  options: SeamStudyOptions = {},
): Promise<SeamRow[]> {
  const pipeline = options.pipeline ?? new Pipeline();
  const designs = await pipeline.designs(job, context.signal === undefined ? {} : { signal: context.signal });
  const ways: Way[] = [{ part: null, name: 'as it is', alike: 1, wish: null, job }, ...otherWays(job, designs)];
  const effort = effortOfRow(job.effort, ways.length);
  const rows: SeamRow[] = [];
  for (const way of ways) {
    if (context.signal?.aborted) break;
    const row = await untilStopped(context.signal, () =>
      layWay(pipeline, { ...way, job: { ...way.job, effort } }, stepHooks(context, rows.length, ways.length)),
    );
    if (row === null) break;
    rows.push(row);
    options.onRow?.(row, rows.length, ways.length);
    context.onProgress?.({ stage: 'nest', done: rows.length / ways.length });
  }
  if (rows.length === 0) throwIfStopped(context.signal);
  return rows;
}

interface Way extends Pick<SeamRow, 'part' | 'name' | 'alike' | 'wish'> {
  readonly job: Job;
}

function otherWays(job: Job, designs: readonly DesignResult[]): Way[] {
  // Signs of one design with other names on them are split alike: the first speaks for all.
  const firsts = designs.filter(
    ({ design }, at) => designs.findIndex((other) => other.design.base === design.base) === at,
  );
  const free = { ...job, pinned: [], done: [] };
  return firsts.flatMap((made) => {
    const { design, sign, split } = made;
    const equals = equalParts(sign.parts);
    const likeOf = (part: Part) => [part, ...sign.parts.filter(({ id }) => equals.get(id) === part.id)];
    const wayOf = (part: Part, wish: Pick<SeamWish, 'plan' | 'morePieces'>): Way => {
      const like = wish.plan === null ? likeOf(part) : [part];
      const prefix = design.base === '' ? '' : `${design.base}/`;
      const wished = like.map(({ id }) => [id, { ...wishFor(design.job, id), ...wish }] as const);
      const name = part.name === '' ? part.id : part.name;
      return {
        part: `${prefix}${part.id}`,
        name,
        alike: like.length,
        wish,
        job: withWishes(free, design.base, wished),
      };
    };
    const ofSplit = split.parts.flatMap(({ partId, outcome, plan }) => {
      const part = sign.parts.find(({ id }) => id === partId)!;
      if (outcome.kind !== 'split') return [];
      const { morePieces } = wishFor(design.job, partId);
      return outcome.plans.filter((other) => other !== plan).map(({ id }) => wayOf(part, { plan: id, morePieces }));
    });
    const whole = wholeParts(made).filter((part) => !equals.has(part.id));
    const ofWhole = whole
      .slice(0, MOST_WHOLE_PARTS)
      .flatMap((part) => PIECES_OF_WHOLE.map((pieces) => wayOf(part, { plan: null, morePieces: pieces - 1 })));
    return [...ofSplit, ...ofWhole];
  });
}

/** Large parts that fit as they are, those first that leave most of their box empty. */
function wholeParts({ sign, split }: DesignResult): Part[] {
  const boxOf = ({ region }: Part) => {
    const { minX, minY, maxX, maxY } = regionBounds(region);
    return (maxX - minX) * (maxY - minY);
  };
  const emptyOf = (part: Part) => boxOf(part) - regionArea(part.region);
  const largest = Math.max(...sign.parts.map(boxOf));
  const whole = new Set(split.parts.flatMap(({ partId, outcome }) => (outcome.kind === 'fits' ? [partId] : [])));
  return sign.parts
    .filter((part) => whole.has(part.id) && boxOf(part) >= LEAST_BOX_SHARE * largest)
    .sort((a, b) => emptyOf(b) - emptyOf(a));
}

/** The job with other wishes for parts of one of its designs, where that design says what it wants. */
function withWishes(job: Job, design: string, wished: readonly (readonly [string, SeamWish])[]): Job {
  const own = job.designs.find(({ id }) => id === design);
  if (own?.seams) {
    const seams = { ...own.seams, parts: { ...own.seams.parts, ...Object.fromEntries(wished) } };
    return { ...job, designs: job.designs.map((other) => (other === own ? { ...own, seams } : other)) };
  }
  const prefix = design === '' ? '' : `${design}/`;
  const named = Object.fromEntries(wished.map(([id, wish]) => [`${prefix}${id}`, wish]));
  return { ...job, seams: { ...job.seams, parts: { ...job.seams.parts, ...named } } };
}

async function layWay(pipeline: Pipeline, { job, ...way }: Way, hooks: StageHooks): Promise<SeamRow> {
  const designs = await pipeline.designs(job, { signal: hooks.signal });
  const impossible = notFittingOf(designs, null)[0];
  const stocks = impossible === undefined ? await pipeline.nestFrom(job, () => null, hooks) : [];
  const splits = designs.flatMap(({ design, split }) =>
    split.parts.map((part) => ({ ...part, id: `${design.base === '' ? '' : `${design.base}/`}${part.partId}` })),
  );
  const plans = splits.flatMap(({ plan }) => plan ?? []);
  const signs = designs.reduce((sum, { design }) => sum + design.count, 0);
  const needs = batchNeedsOf(
    stocks.map((stock) => ({ ...stock, times: timesOf(stock) })),
    signs,
  );
  const price = priceRow(needs, signNeedsOf(designs), job.costs);
  return {
    ...way,
    pieces: splits.find(({ id }) => id === way.part)?.pieces.length ?? 0,
    joints: plans.reduce((sum, { seams }) => sum + seams.length, 0),
    showingMm: plans.reduce((sum, plan) => sum + plan.visibleLengthMm - plan.ledLengthMm, 0),
    looseMm: plans.reduce((sum, plan) => sum + plan.visibleLengthMm + plan.hiddenLengthMm - plan.heldLengthMm, 0),
    boards: needs.boards,
    boardsLowerBound: stocks.reduce((sum, { nested }) => sum + nested.result.lowerBound.boards, 0),
    yield: yieldOf(stocks),
    boardsPrice: needs.boardsPrice,
    costPerSign: price.costPerSign,
    minutesPerSign: price.machineMinutes + price.handMinutes,
    problem: impossible?.message ?? stocks.flatMap(({ layout }) => layout.unplaced)[0]?.why ?? null,
  };
}

/** What a way saves against the job as it is; negative figures are what it costs. */
export interface SeamSaving {
  readonly boards: number;
  readonly boardsPrice: number;
  readonly costPerSign: number;
  readonly minutesPerSign: number;
  /** Joints more, and mm of seam more that show. */
  readonly joints: number;
  readonly showingMm: number;
}

/** @param base - the row of the job as it is. */
export function savingOf(row: SeamRow, base: SeamRow): SeamSaving {
  return {
    boards: base.boards - row.boards,
    boardsPrice: base.boardsPrice - row.boardsPrice,
    costPerSign: base.costPerSign - row.costPerSign,
    minutesPerSign: base.minutesPerSign - row.minutesPerSign,
    joints: row.joints - base.joints,
    showingMm: row.showingMm - base.showingMm,
  };
}

/** A way in words: "hoop in 4 pieces", "2 of hoop in 4 pieces", "backer by plan-2, 3 pieces". */
export function wayWords({ part, name, alike, wish, pieces }: SeamRow): string {
  if (part === null || wish === null) return 'as it is';
  const many = alike > 1 ? `${alike} equal parts like ` : '';
  const by = wish.plan === null ? '' : ` by ${wish.plan},`;
  return `${many}${name}${by} in ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}`;
}

/** One sentence: the way that saves most boards, and what it costs; it claims nothing that the rows do not show, and chooses nothing. */
export function seamConclusion(rows: readonly SeamRow[]): string {
  const [base, ...others] = rows;
  if (base === undefined) return 'Nothing was laid out.';
  const good = others.filter((row) => row.problem === null);
  if (good.length === 0) return 'There is no other way to split this job.';
  const best = good.reduce((a, b) => (b.boards < a.boards || (b.boards === a.boards && b.joints < a.joints) ? b : a));
  const saving = savingOf(best, base);
  if (base.problem !== null || saving.boards <= 0) {
    return `No other way of splitting takes fewer boards than the job as it is (${base.boards}).`;
  }
  const minutes = saving.minutesPerSign;
  const time = `${Math.abs(minutes).toFixed(1)} minutes ${minutes >= 0 ? 'less' : 'more'} a sign`;
  return `${capital(wayWords(best))}: ${best.boards} boards instead of ${base.boards}, for ${counted(saving.joints, 'joint')} more a sign, ${time}, and ${signed(saving.showingMm)} mm of seam that show. The choice is yours.`;
}

function signed(mm: number): string {
  return `${mm >= 0 ? '+' : '-'}${Math.abs(mm).toFixed(0)}`;
}

function capital(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}
