import { Resvg } from '@resvg/resvg-js';
import type { Drawing } from '@underlap/artwork/drawing';
import { ArtworkError } from '@underlap/artwork/error';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { contourToPathData } from '@underlap/geometry/path-data';
import { isSameDxf } from './foreign-dxf.ts';

/**
 * How a foreign drawing was read: as an independent reader sees it; otherwise, but told; refused with a sentence; otherwise and
 * without a word; not at all. `unknown` where the independent reader gives up.
 */
export type ForeignOutcome = 'right' | 'told' | 'refused' | 'silent' | 'crashed' | 'unknown';

const WIDTH = 200;

/** Pixels that may differ beside every edge: curves are flattened and edges smoothed differently. */
const EDGE_SHARE = 2e-3;

/** Steps of a colour channel that no eye tells apart at a smoothed edge. */
const CHANNEL_STEPS = 64;

/** Compare what is read with @resvg/resvg-js 2.6 (SVG, picture by picture) or dxf-parser 1.1 (DXF, the curves that it knows). */
export function foreignOutcome(text: string, name: string): ForeignOutcome {
  let drawing: Drawing;
  try {
    drawing = readArtwork(text, { name, repair: false });
  } catch (error) {
    return error instanceof ArtworkError && error.code !== 'internal' ? 'refused' : 'crashed';
  }
  const isSame = drawing.format === 'svg' ? isDrawnAlike(text, drawing) : isSameDxf(text, drawing);
  if (isSame === null) return 'unknown';
  if (isSame) return 'right';
  return drawing.complaints.some(({ code }) => !EXPLAINS_NOTHING.has(code)) ? 'told' : 'silent';
}

/** What is told of drawings that look the same all the same, so that it excuses no other picture. */
const EXPLAINS_NOTHING = new Set([
  'off-page',
  'clipped',
  'nothing-drawn',
  'joined-ends',
  'size-option-unused',
  'unlikely-size',
]);

/**
 * Ends and corners of lines, and how they are drawn smooth: a beam follows their middle. All are drawn round, so that an outline whose
 * end meets its start looks the same whether it says that it is closed or not.
 */
const OF_NO_ACCOUNT = /\b(stroke-(?:linecap|linejoin|miterlimit)|shape-rendering)\b/g;
const ROUND = 'stroke-linecap="round" stroke-linejoin="round"';

function roundedLines(svg: string): string {
  return svg.replace(OF_NO_ACCOUNT, 'x-$1').replace(/<(?:[\w-]+:)?svg\b/, (tag) => `${tag} ${ROUND}`);
}

/** Does one drawing look as the other is read? For faulty twins. */
export function looksLike(drawn: string, read: string): boolean {
  return isDrawnAlike(drawn, readArtwork(read, { name: 'twin', repair: false })) === true;
}

/**
 * A clip cuts a line's width as well, where what is read is its middle up to the clip: drawings with clipped lines are compared with
 * all lines thin, in a larger picture.
 */
function isDrawnAlike(text: string, drawing: Drawing): boolean | null {
  const isSame = isSamePicture(text, drawing, 1);
  const isCut = drawing.complaints.some(({ code }) => code === 'clipped');
  const hasCutLines = isCut && drawing.shapes.some(({ stroke }) => stroke !== null);
  return isSame === false && hasCutLines ? isSamePicture(text, drawing, THIN) : isSame;
}

/** What widths of lines are multiplied by. */
const THIN = 0.25;

function withThinLines(svg: string, factor: number): string {
  if (factor === 1) return svg;
  return svg
    .replace(
      /\bstroke-width(\s*[=:]\s*["']?\s*)([\d.]+(?:e-?\d+)?)/gi,
      (_, between, width) => `stroke-width${between}${factor * Number(width)}`,
    )
    .replace(/<(?:[\w-]+:)?svg\b(?![^>]*\bstroke-width)/, (tag) => `${tag} stroke-width="${factor}"`);
}

function isSamePicture(text: string, drawing: Drawing, lineFactor: number): boolean | null {
  const side = Math.round(WIDTH / lineFactor);
  const theirs = pixels(withThinLines(roundedLines(text), lineFactor), side);
  const ours = pixels(withThinLines(roundedLines(redrawn(drawing)), lineFactor), side);
  if (theirs === null || ours === null || theirs.length !== ours.length) return null;
  let differing = 0;
  for (let i = 0; i < theirs.length; i += 4) {
    const step = Math.max(...[0, 1, 2].map((channel) => Math.abs(theirs[i + channel]! - ours[i + channel]!)));
    if (step > CHANNEL_STEPS) differing++;
  }
  return differing / (theirs.length / 4) <= EDGE_SHARE;
}

function pixels(svg: string, side: number): Uint8Array | null {
  try {
    const fitTo = { mode: 'width', value: side } as const;
    return new Resvg(svg, { fitTo, background: '#ffffff', font: { loadSystemFonts: false } }).render().pixels;
  } catch {
    // The renderer throws plain strings for what it does not take.
    return null;
  }
}

/** Bare paths of what was read, on a page of its size. */
function redrawn({ size, shapes }: Drawing): string {
  const first = size.kind === 'open' ? size.choices[0]! : null;
  const [width, height] =
    size.kind === 'known'
      ? [size.widthMm, size.heightMm]
      : [(first!.widthMm * first!.perInch) / 25.4, (first!.heightMm * first!.perInch) / 25.4];
  const paths = shapes.map(({ contours, fill, fillRule, stroke, strokeWidthMm }) => {
    const data = contours.map((contour) => contourToPathData(contour, 6)).join(' ');
    return `<path fill="${fill ?? 'none'}" fill-rule="${fillRule}" stroke="${stroke ?? 'none'}" stroke-width="${strokeWidthMm}" d="${data}"/>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${paths.join('')}</svg>`;
}
