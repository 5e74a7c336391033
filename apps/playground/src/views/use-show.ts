import { useCallback } from 'react';
import { keyTarget } from '../picture/pictures.ts';
import type { Matter } from '../state/matters.ts';
import { useSession } from '../state/page-context.ts';

/** Go to the stage of something that is told, and to its place in the picture there. */
export function useShow(): (told: Pick<Matter, 'stage' | 'spot'>) => void {
  const session = useSession();
  return useCallback(
    ({ stage, spot }) => {
      const target = keyTarget(spot?.key ?? null);
      session.gaze.update((gaze) => ({
        ...gaze,
        stage,
        spot,
        partId: target?.kind === 'part' ? target.id : gaze.partId,
        placementId: target?.kind === 'placement' ? target.id : gaze.placementId,
      }));
      document.querySelector('#stage')?.scrollIntoView({ block: 'nearest' });
    },
    [session],
  );
}
