import type { Say } from '../words/say.ts';
import { useSession, useValue } from './page-context.ts';

/** How things are said to this user. */
export function useSay(): Say {
  return useValue(useSession().say);
}
