import type { Drawing, ReadOptions } from './drawing.ts';
import { readDxf } from './dxf/read-dxf.ts';
import { ArtworkError } from './error.ts';
import { readSvg } from './svg/read-svg.ts';

/** Read artwork of either format, told apart by its content and not by its file name. */
export function readArtwork(text: string, options: ReadOptions): Drawing {
  if (/^\s*</.test(text)) return readSvg(text, options);
  // A DXF file begins with a group code alone on its line, or with the mark of the binary kind.
  if (/^\ufeff?\s*\d{1,3}[ \t]*[\r\n]/.test(text) || /^.{0,32}Binary DXF/.test(text)) return readDxf(text, options);
  throw new ArtworkError('not-artwork', `${options.name} is neither SVG nor DXF`);
}
