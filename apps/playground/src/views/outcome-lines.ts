import { chosenPlan, splitParts } from '../picture/pictures.ts';
import type { Results } from '../state/results.ts';
import type { BoardsView, SplitView, StageId } from '../workers/views.ts';
import { count, type Say } from './use-say.ts';

/** The one line below a picture of the strip: what came out, or what is being done. */
export function outcomeLine(stage: StageId, results: Results, say: Say): string {
  const { status, fault, view, message } = results[stage];
  if (status === 'failed') return fault?.code === 'cancelled' ? 'stopped' : 'cannot be done yet';
  if (view === null) return status === 'working' ? 'at work' : status === 'waiting' ? 'waits for the step before' : '';
  if (status === 'working' && stage !== 'boards') return message === '' ? 'being redone' : `at work: ${message}`;
  if (status === 'waiting') return 'to be redone';
  return doneLine(stage, results, say);
}

function doneLine(stage: StageId, results: Results, say: Say): string {
  const { artwork, stack, split, boards, files } = results;
  switch (stage) {
    case 'artwork': {
      if (artwork.view === null) return '';
      const parts = count(artwork.view.parts.length, 'part');
      if (artwork.view.size.kind === 'open') return `${parts}, size not known`;
      return `${parts}, ${say.size(artwork.view.widthMm, artwork.view.heightMm)}`;
    }
    case 'stack': {
      if (stack.view === null) return '';
      const covered = stack.view.layers.filter((layer) => layer.coveredBy.length > 0).length;
      return covered === 0 ? 'nothing lies on anything' : `${count(covered, 'part')} carry others`;
    }
    case 'split':
      return split.view === null ? '' : splitLine(split.view, say);
    case 'boards':
      return boards.view === null ? '' : boardsLine(boards.view, say);
    case 'files':
      return files.view === null
        ? ''
        : `${count(files.view.files.length, 'file')}, ${files.view.verdict.ok ? 'checked' : 'refused'}`;
  }
}

export function splitLine(split: SplitView, say: Say): string {
  const parts = splitParts(split);
  if (parts.length === 0) return 'everything fits whole';
  const stuck = parts.filter((part) => part.kind === 'cannot').length;
  if (stuck > 0) return `${count(stuck, 'part')} cannot be made to fit`;
  const plans = parts.map((part) => chosenPlan(part)).filter((plan) => plan !== null);
  const visible = plans.reduce((sum, plan) => sum + plan.visibleLengthMm, 0);
  const what =
    parts.length === 1
      ? `${parts[0]?.partId ?? ''} in ${count(plans[0]?.pieces.length ?? 0, 'piece')}`
      : `${parts.length} parts split`;
  return visible < 0.05 ? `${what}, seam hidden` : `${what}, ${say.length(visible, 0)} shows`;
}

export function boardsLine(boards: BoardsView, say: Say): string {
  const sheets = count(boards.sheets.length, 'board');
  const bound = boards.isProvedMinimal ? 'proved fewest' : `at least ${boards.lowerBound.boards} needed`;
  return `${sheets}, ${bound}, ${say.percent(boards.yield)} used`;
}

/** How many things of a stage want to be looked at. */
export function complaintsOf(stage: StageId, results: Results): number {
  const { artwork, split, boards, files } = results;
  const failed = results[stage].fault !== null && results[stage].fault?.code !== 'cancelled' ? 1 : 0;
  switch (stage) {
    case 'artwork':
      return (
        failed +
        (artwork.view === null
          ? 0
          : artwork.view.complaints.filter((complaint) => complaint.severity !== 'note').length +
            (artwork.view.size.kind === 'open' ? 1 : 0))
      );
    case 'stack':
      return failed;
    case 'split': {
      if (split.view === null) return failed;
      const shown = splitParts(split.view).filter(
        (part) => part.kind === 'cannot' || (chosenPlan(part)?.visibleLengthMm ?? 0) > 0.05,
      );
      return failed + shown.length;
    }
    case 'boards':
      return failed + (boards.view?.unplaced.length ?? 0);
    case 'files':
      return failed + (files.view === null || files.view.verdict.ok ? 0 : 1);
  }
}
