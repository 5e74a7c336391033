import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Picture } from '../picture/ink.ts';
import type { Palette } from '../picture/paint.ts';
import { pagePainter } from '../picture/painter.ts';
import type { Size, Viewport } from '../picture/viewport.ts';

interface CanvasProps {
  readonly picture: Picture;
  readonly view: Viewport;
  readonly size: Size;
  readonly palette: Palette;
}

/** How a drawing was seen when it was painted. */
interface Look {
  readonly view: Viewport;
  readonly size: Size;
}

/**
 * Shows a picture that the painter paints. While a new one is being painted, the last one is shown moved and scaled, so that
 * zooming and panning follow the hand at once.
 */
export function Canvas({ picture, view, size, palette }: CanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const painted = useRef<Look | null>(null);
  const asked = useRef<Look>({ view, size });
  const [easel] = useState(() => pagePainter.easel(true));

  useLayoutEffect(() => {
    asked.current = { view, size };
    showMoved(canvas.current, painted.current, asked.current);
  }, [view, size]);

  useEffect(() => {
    if (size.width === 0 || size.height === 0) return;
    const pixelRatio = Math.min(window.devicePixelRatio || 1, 2);
    easel.paint({ picture, view, size, pixelRatio, palette }, (bitmap) => {
      showBitmap(canvas.current, bitmap);
      painted.current = { view, size };
      showMoved(canvas.current, painted.current, asked.current);
    });
  }, [easel, picture, view, size, palette]);

  useEffect(() => () => easel.leave(), [easel]);

  return <canvas ref={canvas} className="scene-canvas" />;
}

/** The painted drawing where it is under the view asked for. */
function showMoved(canvas: HTMLCanvasElement | null, painted: Look | null, { view, size }: Look): void {
  if (canvas === null || painted === null) return;
  const zoom = view.scale / painted.view.scale;
  const x = size.width / 2 + (painted.view.centreX - view.centreX) * view.scale - (painted.size.width / 2) * zoom;
  const y = size.height / 2 + (painted.view.centreY - view.centreY) * view.scale - (painted.size.height / 2) * zoom;
  canvas.style.width = `${painted.size.width}px`;
  canvas.style.height = `${painted.size.height}px`;
  canvas.style.transform = x === 0 && y === 0 && zoom === 1 ? '' : `translate(${x}px, ${y}px) scale(${zoom})`;
}

/** Hand a bitmap over to a canvas; nothing is copied. */
export function showBitmap(canvas: HTMLCanvasElement | null, bitmap: ImageBitmap): void {
  if (canvas === null) {
    bitmap.close();
    return;
  }
  if (canvas.width !== bitmap.width) canvas.width = bitmap.width;
  if (canvas.height !== bitmap.height) canvas.height = bitmap.height;
  canvas.getContext('bitmaprenderer')?.transferFromImageBitmap(bitmap);
}
