import { keyTarget, partKey } from '../picture/pictures.ts';
import { useSession, useValue } from '../state/page-context.ts';

/** The part selected everywhere, as the key that pictures of the sign use, and how to select another. */
export function usePartChoice(): { partId: string | null; selected: string | null; select(key: string | null): void } {
  const session = useSession();
  const { partId } = useValue(session.gaze);
  return {
    partId,
    selected: partId === null ? null : partKey(partId),
    select: (key) => {
      const target = keyTarget(key);
      session.gaze.update((gaze) => ({
        ...gaze,
        partId: target?.kind === 'part' ? target.id : null,
        placementId: null,
      }));
    },
  };
}
