import { regionArea } from '@underlap/geometry/region';
import { boardYield } from '@underlap/job/board-yield';
import type { Job } from '@underlap/job/document';
import { type Loading, loadingsOf } from '@underlap/job/loadings';
import { numberingOf, pieceNumber, seamKey, withSeamLabels } from '@underlap/job/numbering';
import { type SeamHold, seamHolds } from '@underlap/job/seam-hold';
import { landingOf, wishFor } from '@underlap/job/split-stage';
import type { DesignResult, PartSplit, SplitResult } from '@underlap/job/stages';
import { copyName } from '@underlap/nest/copy';
import type { Layout, NestProblem, NestResult, Verdict } from '@underlap/nest/problem';
import type { Seam, SplitPlan } from '@underlap/seam/task';
import type { Sign } from '@underlap/stack/sign';
import type {
  BoardsView,
  KindView,
  LoadingView,
  PartSplitView,
  PlanView,
  SeamView,
  SheetView,
  SplitView,
} from '../workers/views.ts';
import {
  alongTrack,
  contourPath,
  contoursPath,
  regionPath,
  shapeBox,
  shapePath,
  stretchPath,
  trackOf,
} from './outline-views.ts';

export function splitView(split: SplitResult, sign: Sign, job: Job): SplitView {
  const numbering = numberingOf(split);
  const regions = new Map(sign.parts.map((part) => [part.id, part.region]));
  return {
    landingMm: landingOf(job),
    limits: split.limits.map(({ name, width, height }) => ({ name, width, height })),
    parts: split.parts.map((part, index) =>
      partSplitView(part, index, (plan) => {
        const isPlated = wishFor(job, part.partId).plates;
        const region = regions.get(part.partId);
        const holds = (plated: boolean) =>
          region === undefined ? [] : seamHolds(plan, region, landingOf(job), plated);
        const labelOf = (seam: Seam): string =>
          plan === part.plan ? (numbering.seams.get(seamKey(part.partId, seam.id)) ?? '') : '';
        return planView(plan, { part: index, labelOf, glued: holds(false), plated: holds(true), isPlated });
      }),
    ),
  };
}

function partSplitView(
  { partId, outcome, plan }: PartSplit,
  index: number,
  viewOf: (plan: SplitPlan) => PlanView,
): PartSplitView {
  const number = pieceNumber(index, 0, 1);
  const none = {
    why: null,
    plans: [],
    chosenPlanId: null,
    piecesLowerBound: 1,
    isProvenFewest: true,
    limitTurnDeg: 0,
  };
  switch (outcome.kind) {
    case 'fits':
      return { partId, number, kind: 'fits', ...none, limitTurnDeg: outcome.limitTurnDeg.bed };
    case 'cannot':
      return { partId, number, kind: 'cannot', ...none, why: outcome.why };
    case 'split':
      return {
        partId,
        number,
        kind: 'split',
        ...none,
        plans: outcome.plans.map(viewOf),
        chosenPlanId: plan?.id ?? null,
        piecesLowerBound: outcome.piecesLowerBound,
        isProvenFewest: plan?.provenFewest ?? false,
      };
  }
}

interface PlanFrame {
  /** Place of its part in the sign, from 0. */
  readonly part: number;
  labelOf(seam: Seam): string;
  readonly glued: readonly SeamHold[];
  readonly plated: readonly SeamHold[];
  readonly isPlated: boolean;
}

function planView(plan: SplitPlan, { part, labelOf, glued, plated, isPlated }: PlanFrame): PlanView {
  const holds = isPlated ? plated : glued;
  const sumOf = (list: readonly SeamHold[]): number => list.reduce((sum, { heldMm }) => sum + heldMm, 0);
  return {
    id: plan.id,
    merits: plan.merits,
    pieces: plan.pieces.map((piece, at) => ({
      id: piece.id,
      number: pieceNumber(part, at, plan.pieces.length),
      d: shapePath(piece.shape),
      box: shapeBox(piece.shape),
    })),
    seams: plan.seams.map((seam, index) => seamView(seam, labelOf(seam), holds[index]?.heldMm ?? seam.heldLengthMm)),
    visibleLengthMm: plan.visibleLengthMm,
    lengthMm: plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0),
    leastNeckMm: plan.leastNeckMm,
    balance: plan.balance,
    heldByGlueMm: sumOf(glued),
    heldWithPlatesMm: sumOf(plated),
    plates: plan.plates.map(regionPath),
    isPlated,
    remarks: plan.remarks.map((remark) => ({
      ...remark,
      message: withSeamLabels(remark.message, plan.seams, (id) => {
        const seam = plan.seams.find((candidate) => candidate.id === id);
        return (seam === undefined ? '' : labelOf(seam)) || null;
      }),
    })),
  };
}

function seamView(seam: Seam, label: string, heldLengthMm: number): SeamView {
  const track = trackOf(seam.path);
  const spine = trackOf(seam.spine);
  return {
    id: seam.id,
    label,
    between: seam.between,
    d: contourPath(seam.path),
    visible: seam.visible.map(([from, to]) => stretchPath(track, from, to)),
    lengthMm: seam.lengthMm,
    hiddenLengthMm: seam.hiddenLengthMm,
    heldLengthMm,
    knobs: seam.knobs.length,
    neckMm: seam.neckMm,
    handle: alongTrack(spine, spine.length / 2),
  };
}

/** The kinds of pieces as cut: the same for every layout of them. */
export function kindViews(designs: readonly DesignResult[]): KindView[] {
  return designs.flatMap(({ design, sign, pieces }) => {
    const parts = new Map(sign.parts.map((part) => [part.id, part]));
    return pieces.map((piece): KindView => {
      const part = parts.get(piece.partId);
      return {
        pieceId: `${design.prefix}${piece.id}`,
        number: piece.number,
        partId: `${design.prefix}${piece.partId}`,
        design: design.id,
        order: design.order,
        name: part?.name ?? piece.id,
        layer: part?.layer ?? null,
        paint: part?.paint ?? null,
        d: shapePath(piece.cutShape),
        marks: piece.marks.map((mark) => contoursPath(mark.contours)),
        box: shapeBox(piece.cutShape),
        areaMm2: regionArea(piece.region),
      };
    });
  });
}

/** What is drawn of one stock's boards. */
export interface StockBoards {
  readonly stockId: string;
  /** As its boards are loaded. */
  readonly job: Job;
  readonly problem: NestProblem;
  readonly layout: Layout;
  readonly result: Pick<NestResult, 'lowerBound' | 'isProvedMinimal' | 'workUnits'>;
  readonly endedBy: BoardsView['endedBy'];
  readonly verdict: Verdict | null;
}

/** Layouts in the pieces' frames as the page draws them, stock after stock. */
export function boardsView(kinds: readonly KindView[], stocks: readonly StockBoards[]): BoardsView {
  const areas = new Map(kinds.map(({ pieceId, areaMm2 }) => [pieceId, areaMm2]));
  const laid = stocks.map(({ problem, layout }) => ({ sheets: layout.sheets, stock: problem.stock, areas }));
  const sheets = stocks.flatMap(({ stockId, job, problem, layout }) => {
    const outlines = new Map(problem.stock.map((stock) => [stock.id, regionPath(stock.outline)]));
    return layout.sheets.map(
      (sheet): SheetView => ({
        ...sheetView(sheet, stockId, outlines.get(sheet.stockId) ?? ''),
        loadings: loadingsOf(sheet, job).flatMap((loading) => loadingView(loading) ?? []),
        yield: boardYield([{ sheets: [sheet], stock: problem.stock, areas }]),
      }),
    );
  });
  const bounds = stocks.map(({ result }) => result.lowerBound);
  return {
    kinds,
    sheets,
    unplaced: stocks.flatMap(({ layout }) => layout.unplaced),
    yield: boardYield(laid),
    lowerBound: { boards: bounds.reduce((sum, { boards }) => sum + boards, 0), by: bounds[0]?.by ?? 'area' },
    isProvedMinimal: stocks.every(({ result }) => result.isProvedMinimal),
    endedBy: stocks.map((stock) => stock.endedBy).find((by) => by !== 'proved') ?? 'proved',
    workUnits: stocks.reduce((sum, { result }) => sum + result.workUnits, 0),
    verdict: verdictOfAll(stocks.map(({ verdict }) => verdict)),
  };
}

function loadingView({ number, kind, page, isTurned, copies, move, board }: Loading): LoadingView | null {
  if (kind === 'whole') return null;
  return {
    number,
    kind,
    page,
    isTurned,
    placements: copies.map(copyName),
    move: move === null ? null : { x: move.dx, y: move.dy },
    stop: { x: board.minX, y: board.minY },
  };
}

function sheetView(
  sheet: Layout['sheets'][number],
  material: string,
  outline: string,
): Omit<SheetView, 'yield' | 'loadings'> {
  return {
    stockId: sheet.stockId,
    material,
    outline,
    width: sheet.width,
    height: sheet.height,
    placements: sheet.placements.map(({ pieceId, copy, x, y, turnDeg, mirrored }) => ({
      id: copyName({ pieceId, copy }),
      pieceId,
      sign: copy,
      x,
      y,
      turnDeg,
      mirrored,
    })),
    offcut: sheet.offcut === null ? null : { d: regionPath(sheet.offcut), areaMm2: regionArea(sheet.offcut) },
  };
}

/** One verdict on several layouts; null while one is missing. */
export function verdictOfAll(verdicts: readonly (Verdict | null)[]): Verdict | null {
  const all = verdicts.filter((verdict) => verdict !== null);
  if (all.length < verdicts.length || all.length === 0) return null;
  return {
    ok: all.every(({ ok }) => ok),
    smallestGapMm: Math.min(...all.map(({ smallestGapMm }) => smallestGapMm)),
    smallestMarginMm: Math.min(...all.map(({ smallestMarginMm }) => smallestMarginMm)),
    violations: all.flatMap(({ violations }) => violations),
  };
}
