import { useSay } from '../state/use-say.ts';

/** The word that goes with the colour of what wants to be looked at. */
export function LookHere() {
  return <strong>{useSay().t('page.look-here')}</strong>;
}
