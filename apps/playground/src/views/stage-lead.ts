import { chosenPlan, splitParts } from '../picture/pictures.ts';
import { LEAST_VISIBLE_MM, mattersOf, partName } from '../state/matters.ts';
import type { Results } from '../state/results.ts';
import type { Say } from '../words/say.ts';
import type { StageId } from '../workers/views.ts';
import { complaintsOf } from './outcome-lines.ts';

/** The sentence a stage begins with, and whether all is well. */
export interface Lead {
  readonly words: string;
  readonly tone: 'good' | 'look' | 'busy';
}

const good = (words: string): Lead => ({ words, tone: 'good' });
const look = (words: string): Lead => ({ words, tone: 'look' });
const busy = (words: string): Lead => ({ words, tone: 'busy' });

/** What came out of a stage, in one sentence. */
export function stageLead(stage: StageId, results: Results, say: Say): Lead {
  const { status, fault, view } = results[stage];
  if (status === 'failed') {
    return fault?.code === 'cancelled' ? busy(say.t('lead.stopped')) : look(say.t('lead.failed'));
  }
  if (view === null) return busy(say.t(status === 'working' ? 'lead.at-work' : 'lead.waits'));
  if (status !== 'done' && stage !== 'boards') return busy(say.t('lead.at-work'));
  const lead = outcome(stage, results, say) ?? busy('');
  // a sentence may begin with the name of a part, as the drawing writes it
  return { ...lead, words: lead.words.charAt(0).toLocaleUpperCase(say.language) + lead.words.slice(1) };
}

function outcome(stage: StageId, results: Results, say: Say): Lead | null {
  switch (stage) {
    case 'artwork':
      return artworkLead(results, say);
    case 'stack':
      return stackLead(results, say);
    case 'split':
      return splitLead(results, say);
    case 'boards':
      return boardsLead(results, say);
    case 'files':
      return filesLead(results, say);
  }
}

function artworkLead(results: Results, say: Say): Lead | null {
  const { view } = results.artwork;
  if (view === null) return null;
  if (view.size.kind === 'open') return look(say.t('lead.size-open'));
  const places = { n: view.parts.length, size: say.size(view.widthMm, view.heightMm) };
  const faults = mattersOf('artwork', results, say).length;
  return faults === 0
    ? good(say.t('lead.artwork', places))
    : look(say.t('lead.artwork-look', { ...places, look: faults }));
}

function stackLead({ stack }: Results, say: Say): Lead | null {
  if (stack.view === null) return null;
  const { layers, heightMm } = stack.view;
  const faulty = layers.filter((layer) => layer.fault !== null && layer.fault !== 'tips').length;
  if (faulty > 0) return look(say.t('lead.stack-look', { n: faulty }));
  const levels = Math.max(0, ...layers.map((layer) => layer.level)) + 1;
  return good(say.t('lead.stack', { n: layers.length, layers: levels, height: say.length(heightMm) }));
}

function splitLead({ split, artwork }: Results, say: Say): Lead | null {
  if (split.view === null) return null;
  const parts = splitParts(split.view);
  if (parts.length === 0) return good(say.t('lead.fits-whole'));
  const stuck = parts.filter((part) => part.kind === 'cannot').length;
  if (stuck > 0) return look(say.t('lead.cannot-fit', { n: stuck }));
  const plans = parts.flatMap((part) => chosenPlan(part) ?? []);
  const visible = plans.reduce((sum, plan) => sum + plan.visibleLengthMm, 0);
  const places = {
    names: say.list(parts.map((part) => partName(part.partId, artwork.view))),
    parts: parts.length,
    n: plans.reduce((sum, plan) => sum + plan.pieces.length, 0),
  };
  return visible < LEAST_VISIBLE_MM
    ? good(say.t('lead.split-hidden', places))
    : look(say.t('lead.split-shows', { ...places, length: say.length(visible, 0) }));
}

function boardsLead({ boards: { view } }: Results, say: Say): Lead | null {
  if (view === null) return null;
  if (view.unplaced.length > 0) return look(say.t('lead.unplaced', { n: view.unplaced.length }));
  const signs = new Set(view.sheets.flatMap((sheet) => sheet.placements.map((placement) => placement.sign))).size;
  const places = { n: view.sheets.length, signs, share: say.percent(view.yield, 1) };
  return good(
    view.isProvedMinimal
      ? say.t('lead.boards-proved', places)
      : say.t('lead.boards', { ...places, least: view.lowerBound.boards }),
  );
}

function filesLead(results: Results, say: Say): Lead | null {
  const { view } = results.files;
  if (view === null) return null;
  const unplaced = results.boards.view?.unplaced.length ?? 0;
  if (unplaced > 0) return look(say.t('lead.files-unplaced', { n: unplaced }));
  if (!view.verdict.ok) return look(say.t('lead.files-refused'));
  const n = results.boards.view?.sheets.length ?? 0;
  const faults = complaintsOf('files', results, say);
  return faults === 0 ? good(say.t('lead.files', { n })) : look(say.t('lead.files-look', { n, look: faults }));
}
