import { chosenPlan, splitParts } from '../picture/pictures.ts';
import { LEAST_VISIBLE_MM, mattersOf, mattersUpTo, partName } from '../state/matters.ts';
import type { Results } from '../state/results.ts';
import type { Say } from '../words/say.ts';
import type { ArtworkView, BoardsView, SplitView, StageId } from '../workers/views.ts';

/** The one line below a picture of the strip: what came out, or what is being done. */
export function outcomeLine(stage: StageId, results: Results, say: Say): string {
  const { status, fault, view, message } = results[stage];
  if (status === 'failed') return say.t(fault?.code === 'cancelled' ? 'line.stopped' : 'line.cannot');
  if (view === null) {
    if (status === 'working') return say.t('line.at-work');
    return status === 'waiting' ? say.t('line.waits') : '';
  }
  if (status === 'working' && stage !== 'boards') {
    return message === '' ? say.t('line.being-redone') : say.t('line.at-work-on', { what: message });
  }
  if (status === 'waiting') return say.t('line.to-be-redone');
  return doneLine(stage, results, say);
}

function doneLine(stage: StageId, results: Results, say: Say): string {
  const { artwork, stack, split, boards, files } = results;
  switch (stage) {
    case 'artwork': {
      if (artwork.view === null) return '';
      const { parts, size, widthMm, heightMm } = artwork.view;
      if (size.kind === 'open') return say.t('line.size-not-known', { n: parts.length });
      return say.t('line.artwork', { n: parts.length, size: say.size(widthMm, heightMm) });
    }
    case 'stack': {
      if (stack.view === null) return '';
      const n = stack.view.layers.filter((layer) => layer.coveredBy.length > 0).length;
      return n === 0 ? say.t('line.nothing-covered') : say.t('line.carry', { n });
    }
    case 'split':
      return split.view === null ? '' : splitLine(split.view, artwork.view, say);
    case 'boards':
      return boards.view === null ? '' : boardsLine(boards.view, say);
    case 'files':
      if (files.view === null) return '';
      if (!files.view.files.some(({ kind }) => kind === 'sheet')) return say.t('line.files-none');
      return say.t(files.view.verdict.ok ? 'line.files-checked' : 'line.files-refused', {
        n: files.view.files.length,
      });
  }
}

function splitLine(split: SplitView, artwork: ArtworkView | null, say: Say): string {
  const parts = splitParts(split);
  const [first] = parts;
  if (first === undefined) return say.t('line.fits-whole');
  const stuck = parts.filter((part) => part.kind === 'cannot').length;
  if (stuck > 0) return say.t('line.cannot-fit', { n: stuck });
  const plans = parts.flatMap((part) => chosenPlan(part) ?? []);
  const visible = plans.reduce((sum, plan) => sum + plan.visibleLengthMm, 0);
  const length = say.length(visible, 0);
  const isHidden = visible < LEAST_VISIBLE_MM;
  if (parts.length > 1) {
    return isHidden
      ? say.t('line.parts-hidden', { n: parts.length })
      : say.t('line.parts-show', { n: parts.length, length });
  }
  const places = { part: partName(first.partId, artwork), n: plans[0]?.pieces.length ?? 0 };
  return isHidden
    ? say.t('line.part-hidden', { ...places, seams: plans[0]?.seams.length ?? 0 })
    : say.t('line.part-shows', { ...places, length });
}

function boardsLine(boards: BoardsView, say: Say): string {
  const places = { n: boards.sheets.length, share: say.percent(boards.yield, 1) };
  return boards.isProvedMinimal
    ? say.t('line.boards-proved', places)
    : say.t('line.boards', { ...places, least: boards.lowerBound.boards });
}

/** How many things of a stage want to be looked at; the files answer for all that went before. */
export function complaintsOf(stage: StageId, results: Results, say: Say): number {
  return stage === 'files' && results.files.view !== null
    ? mattersUpTo('files', results, say).length
    : mattersOf(stage, results, say).length;
}
