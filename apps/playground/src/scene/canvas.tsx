import { useEffect, useRef } from 'react';
import type { Picture } from '../picture/ink.ts';
import { type Palette, type PathCache, paintInSteps, stepwiseContext } from '../picture/paint.ts';
import { pagePaintQueue } from '../picture/paint-queue.ts';
import type { Size, Viewport } from './viewport.ts';

interface CanvasProps {
  readonly picture: Picture;
  readonly view: Viewport;
  readonly size: Size;
  readonly palette: Palette;
  readonly paths: PathCache;
}

/**
 * Draws a picture off screen in short steps and then shows it whole. While a new one is drawn, the last one is shown moved and
 * scaled, so that zooming and panning follow the hand at once.
 */
export function Canvas({ picture, view, size, palette, paths }: CanvasProps) {
  const shown = useRef<HTMLCanvasElement>(null);
  const finished = useRef<{ bitmap: OffscreenCanvas; view: Viewport; size: Size; picture: Picture } | null>(null);

  useEffect(() => {
    const canvas = shown.current;
    const context = canvas?.getContext('2d');
    if (canvas === null || context === null || context === undefined || size.width === 0 || size.height === 0) return;
    const pixelRatio = Math.min(window.devicePixelRatio || 1, 2);
    const width = Math.round(size.width * pixelRatio);
    const height = Math.round(size.height * pixelRatio);
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
    }
    showMoved(context, finished.current, view, size, pixelRatio);

    const bitmap = new OffscreenCanvas(width, height);
    const off = stepwiseContext(bitmap);
    if (off === null) return;
    const steps = paintInSteps({ context: off, size, pixelRatio, palette, paths }, picture, view);
    return pagePaintQueue.add(steps, true, () => {
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.clearRect(0, 0, width, height);
      context.drawImage(bitmap, 0, 0);
      finished.current = { bitmap, view, size, picture };
    });
  }, [picture, view, size, palette, paths]);

  return <canvas ref={shown} className="scene-canvas" />;
}

/** The last finished drawing where it would be under the new view. */
function showMoved(
  context: CanvasRenderingContext2D,
  last: { bitmap: OffscreenCanvas; view: Viewport; size: Size } | null,
  view: Viewport,
  size: Size,
  pixelRatio: number,
): void {
  if (last === null) return;
  const zoom = view.scale / last.view.scale;
  const x = size.width / 2 + (last.view.centreX - view.centreX) * view.scale - (last.size.width / 2) * zoom;
  const y = size.height / 2 + (last.view.centreY - view.centreY) * view.scale - (last.size.height / 2) * zoom;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, context.canvas.width, context.canvas.height);
  context.drawImage(
    last.bitmap,
    x * pixelRatio,
    y * pixelRatio,
    last.size.width * zoom * pixelRatio,
    last.size.height * zoom * pixelRatio,
  );
}
