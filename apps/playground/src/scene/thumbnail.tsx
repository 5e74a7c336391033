import { memo, useEffect, useRef, useState } from 'react';
import type { Picture } from '../picture/ink.ts';
import { pagePainter } from '../picture/painter.ts';
import { usePalette } from '../picture/palette.ts';
import { fitView } from '../picture/viewport.ts';
import { showBitmap } from './canvas.tsx';

interface ThumbnailProps {
  readonly picture: Picture;
  readonly width: number;
  readonly height: number;
}

/** A small still picture; decoration beside words that say the same. */
export const Thumbnail = memo(function Thumbnail({ picture, width, height }: ThumbnailProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const palette = usePalette();
  const [easel] = useState(() => pagePainter.easel(false));

  useEffect(() => {
    const size = { width, height };
    const pixelRatio = Math.min(window.devicePixelRatio || 1, 2);
    const view = fitView(picture.bounds, size, 3);
    easel.paint({ picture: { ...picture, captions: [] }, view, size, pixelRatio, palette }, (bitmap) =>
      showBitmap(canvas.current, bitmap),
    );
  }, [easel, picture, width, height, palette]);

  useEffect(() => () => easel.leave(), [easel]);

  return <canvas ref={canvas} className="thumbnail" style={{ width, height }} />;
});
