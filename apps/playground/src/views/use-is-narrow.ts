import { useSyncExternalStore } from 'react';

/** Below this the strip stands as a column of cards. */
const NARROW = '(max-width: 760px)';

export function useIsNarrow(): boolean {
  return useSyncExternalStore(
    (listener) => {
      const media = matchMedia(NARROW);
      media.addEventListener('change', listener);
      return () => media.removeEventListener('change', listener);
    },
    () => matchMedia(NARROW).matches,
  );
}
