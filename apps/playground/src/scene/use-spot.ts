import type { Bounds } from '@underlap/geometry/ring';
import { useEffect, useState } from 'react';
import type { Picture } from '../picture/ink.ts';
import type { Size } from '../picture/viewport.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { StageId } from '../workers/views.ts';
import type { ViewportHand } from './use-viewport.ts';

/** Takes the picture to the place that somebody asked to be shown, once, and keeps it ringed until `clear`. */
export function useSpot(
  stage: StageId,
  picture: Picture,
  hand: ViewportHand,
  size: Size,
): { readonly ring: Bounds | null; clear(): void } {
  const session = useSession();
  const { spot } = useValue(session.gaze);
  const [ring, setRing] = useState<Bounds | null>(null);
  useEffect(() => {
    if (spot === null || spot.stage !== stage || size.width === 0) return;
    const box = spot.box ?? picture.things.find(({ key }) => key === spot.key)?.box;
    // a picture that is still being made will have it
    if (box === undefined) return;
    hand.lookAt(box);
    setRing(box);
    session.gaze.update((gaze) => ({ ...gaze, spot: null }));
  }, [spot, stage, size.width, picture, hand, session]);
  return { ring, clear: () => setRing(null) };
}
