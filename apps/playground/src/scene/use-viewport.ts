import type { Bounds } from '@underlap/geometry/ring';
import { useEffect, useRef, useState } from 'react';
import { fitView, keepInSight, panBy, type Size, type Viewport, zoomAt } from '../picture/viewport.ts';

/** Border around a fitted picture, CSS px: room for the ruler. */
const BORDER = 28;

export interface ViewportHand {
  readonly view: Viewport;
  /** Nothing but the fitted view so far, or again. */
  readonly isFitted: boolean;
  fit(): void;
  /** Show this place as large as it fits, with so much room round it (CSS px; a good deal when not said). */
  lookAt(box: Bounds, border?: number): void;
  zoom(factor: number, at?: { x: number; y: number }): void;
  pan(dx: number, dy: number): void;
}

/**
 * The viewport of a scene. It follows the picture (fits again when its bounds or the scene's size change) until a hand has moved
 * it, and again after `fit()`.
 */
export function useViewport(bounds: Bounds, size: Size): ViewportHand {
  const [own, setOwn] = useState<Viewport | null>(null);
  const key = `${bounds.minX} ${bounds.minY} ${bounds.maxX} ${bounds.maxY}`;
  const lastKey = useRef(key);
  useEffect(() => {
    if (lastKey.current === key) return;
    lastKey.current = key;
    setOwn(null);
  }, [key]);

  const fitted = fitView(bounds, size, BORDER);
  const view = own ?? fitted;
  // from the newest view, not from the drawn one: two fingers zoom and pan between two frames
  const change = (next: (view: Viewport) => Viewport): void =>
    setOwn((now) => keepInSight(next(now ?? fitted), size, bounds));
  return {
    view,
    isFitted: own === null,
    fit: () => setOwn(null),
    lookAt: (box, border = Math.min(size.width, size.height) * 0.3) => {
      const near = fitView(box, size, border);
      setOwn({ ...near, scale: Math.max(Math.min(near.scale, 8), fitted.scale) });
    },
    zoom: (factor, at) => change((now) => zoomAt(now, size, at?.x ?? size.width / 2, at?.y ?? size.height / 2, factor)),
    pan: (dx, dy) => change((now) => panBy(now, dx, dy)),
  };
}
