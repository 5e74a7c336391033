import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Resvg } from '@resvg/resvg-js';
import type { Drawing } from '@underlap/artwork/drawing';
import { plainContour } from '@underlap/geometry/packed-segments';
import { contourToPathData } from '@underlap/geometry/path-data';
import { openFont } from '@underlap/lettering/font';
import { letterDrawing } from '@underlap/lettering/letter-drawing';

/**
 * Letters against an independent renderer with the same font file: resvg 2.6 shapes text with rustybuzz, a port of the reference
 * shaping engine, and fills it itself; ours are outlines, filled by the same renderer as plain paths.
 */
const file = createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf');
export const LETTER_FONT = await openFont(new Uint8Array(readFileSync(file)), 'DejaVuSans.ttf');

/** A white page of 300 x 100 mm. */
export const page = (body: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="100mm" viewBox="0 0 300 100"><rect width="300" height="100" fill="#ffffff"/>${body}</svg>`;

/** Five pixels to the millimetre. */
export const pixels = (svg: string): Buffer =>
  new Resvg(svg, {
    fitTo: { mode: 'width', value: 1500 },
    font: { fontFiles: [file], loadSystemFonts: false, defaultFontFamily: 'DejaVu Sans' },
  }).render().pixels as Buffer;

/** The letters of a drawing as plain paths. */
export function letterPaths(drawing: Drawing): string {
  const drawn = new Set(drawing.shapes.map(({ id }) => id));
  const lettered = letterDrawing(drawing, {
    fonts: [LETTER_FONT],
    letters: 'apart',
    weldMm: 0,
    leastStrokeMm: 0.1,
    words: {},
    rooms: {},
  });
  return lettered.shapes
    .filter(({ id }) => !drawn.has(id))
    .map(({ contours }) => `<path d="${contours.map((one) => contourToPathData(plainContour(one), 6)).join('')}"/>`)
    .join('');
}

/** Share of the ink of both pictures that only one of them has; anti-aliasing counts by its depth. Ink in pixels. */
export function differingShare(first: Buffer, second: Buffer): { readonly ink: number; readonly share: number } {
  let ink = 0;
  let apart = 0;
  for (let i = 0; i < first.length; i += 4) {
    ink += 255 - Math.min(first[i]!, second[i]!);
    apart += Math.abs(first[i]! - second[i]!);
  }
  return { ink: ink / 255, share: apart / ink };
}
