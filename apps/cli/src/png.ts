import { type PathPicture, paintPathPicture } from '@underlap/job/pack/path-picture';

/** A picture as PNG, painted on a canvas in memory. */
export async function pngOf(picture: PathPicture): Promise<Uint8Array> {
  // Loaded when asked for: most commands paint nothing.
  const { createCanvas, Path2D } = await import('@napi-rs/canvas');
  const canvas = createCanvas(picture.width, picture.height);
  paintPathPicture(canvas.getContext('2d'), (d) => new Path2D(d), picture);
  return canvas.encode('png');
}
