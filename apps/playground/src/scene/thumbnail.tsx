import { memo, useEffect, useRef } from 'react';
import type { Picture } from '../picture/ink.ts';
import { PathCache, paintInSteps, stepwiseContext } from '../picture/paint.ts';
import { pagePaintQueue } from '../picture/paint-queue.ts';
import { usePalette } from '../picture/palette.ts';
import { fitView } from './viewport.ts';

interface ThumbnailProps {
  readonly picture: Picture;
  readonly width: number;
  readonly height: number;
}

/** A small still picture; decoration beside words that say the same. */
export const Thumbnail = memo(function Thumbnail({ picture, width, height }: ThumbnailProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const palette = usePalette();

  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (context === null || context === undefined) return;
    const pixelRatio = Math.min(window.devicePixelRatio || 1, 2);
    const size = { width, height };
    const off = new OffscreenCanvas(Math.round(width * pixelRatio), Math.round(height * pixelRatio));
    const offContext = stepwiseContext(off);
    if (offContext === null) return;
    const view = fitView(picture.bounds, size, 3);
    const easel = { context: offContext, size, pixelRatio, palette, paths: new PathCache() };
    const steps = paintInSteps(easel, { ...picture, captions: [] }, view);
    return pagePaintQueue.add(steps, false, () => {
      context.clearRect(0, 0, off.width, off.height);
      context.drawImage(off, 0, 0);
    });
  }, [picture, width, height, palette]);

  const ratio = Math.min(window.devicePixelRatio || 1, 2);
  return (
    <canvas
      ref={canvas}
      className="thumbnail"
      width={Math.round(width * ratio)}
      height={Math.round(height * ratio)}
      style={{ width, height }}
    />
  );
});
