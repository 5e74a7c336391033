import type { Fault } from '../workers/fault.ts';
import type { Say } from './say.ts';

/** A fault as a sentence: in the user's language where the page knows its code, in the engine's English where not. */
export function faultWords({ code, message, place, values = {} }: Fault, say: Say): string {
  const { n = 0, part = '', why = '' } = values;
  switch (code) {
    case 'cancelled':
      return say.t('notice.stopped-here');
    case 'internal':
      return say.t('notice.internal', { message });
    case 'not-enough-boards':
      return say.t('notice.not-enough-boards', { n });
    case 'parts-do-not-fit':
      return say.t(n === 0 ? 'notice.part-does-not-fit' : 'notice.parts-do-not-fit', { part, why, n });
    default:
      return place === null || message.includes(place) ? message : say.t('page.at-place', { message, place });
  }
}
