import type { Picture } from '../picture/ink.ts';
import { PathCache, paintAtOnce } from '../picture/paint.ts';
import { PRINT_TONES, pictureFrame } from '../picture/picture-svg.ts';

/** A picture as PNG on white, `longestPx` along its longer side; null where the browser cannot draw in a worker. */
export async function picturePng(picture: Picture, longestPx: number): Promise<Uint8Array<ArrayBuffer> | null> {
  if (typeof OffscreenCanvas === 'undefined') return null;
  const frame = pictureFrame(picture);
  const scale = longestPx / Math.max(frame.width, frame.height);
  const size = { width: Math.round(frame.width * scale), height: Math.round(frame.height * scale) };
  const canvas = new OffscreenCanvas(size.width, size.height);
  const context = canvas.getContext('2d');
  if (context === null) return null;
  const easel = { context, size, pixelRatio: 1, palette: PRINT_TONES, paths: new PathCache() };
  paintAtOnce(easel, picture, { centreX: frame.x + frame.width / 2, centreY: frame.y + frame.height / 2, scale });
  context.globalCompositeOperation = 'destination-over';
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.globalAlpha = 1;
  context.fillStyle = PRINT_TONES.paper;
  context.fillRect(0, 0, size.width, size.height);
  const blob = await canvas.convertToBlob({ type: 'image/png' });
  return new Uint8Array(await blob.arrayBuffer());
}
