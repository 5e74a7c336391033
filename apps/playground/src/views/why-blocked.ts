import { placedName } from '../state/piece-name.ts';
import type { Say } from '../words/say.ts';
import type { TouchAnswer } from '../workers/api.ts';
import type { BoardsView } from '../workers/views.ts';

/** Why a piece cannot lie where the hand holds it, as a sentence; empty when it can. */
export function whyBlocked(why: TouchAnswer['why'], view: BoardsView, say: Say): string {
  switch (why?.kind) {
    case undefined:
      return '';
    case 'no-sheet':
      return say.t('hand.why-no-sheet');
    case 'off-board':
      return say.t('hand.why-off-board');
    case 'forbidden':
      return say.t('hand.why-forbidden');
    case 'piece':
      return say.t('hand.why-piece', { piece: placedName(view, why.id, say) });
  }
}
