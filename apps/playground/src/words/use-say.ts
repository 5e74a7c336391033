import { useSession, useValue } from '../state/page-context.ts';
import type { Say } from './say.ts';

/** How things are said to this user. */
export function useSay(): Say {
  return useValue(useSession().say);
}
