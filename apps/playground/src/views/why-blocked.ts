import type { Say } from '../words/say.ts';
import type { TouchAnswer } from '../workers/api.ts';

/** Why a piece cannot lie where the hand holds it, as a sentence; empty when it can. */
export function whyBlocked(why: TouchAnswer['why'], say: Say): string {
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
      return say.t('hand.why-piece', { piece: why.id });
  }
}
