import type { Drawing } from '@underlap/artwork/drawing';
import { readSvg } from '@underlap/artwork/svg/read-svg';
import { describe, expect, it } from 'vitest';
import { drawnLength, filledArea } from '../support/drawn-area.ts';
import { type CorpusFile, comparedIcons } from '../support/icon-corpus.ts';
import { rasterArea } from '../support/raster-area.ts';

/**
 * Filled area against an independent renderer: @resvg/resvg-js 2.6 draws each file 128 pixels wide, and the sum of its
 * coverage is compared with the area of what we read. A renderer with anti-aliasing is wrong by a share of a pixel along
 * every edge, so the tolerance goes with the length of the outlines.
 */
const PIXELS = 128;

/** Largest mean error along the outlines, pixels: a sixteenth is the renderer's own sub-pixel step, with as much to spare. */
const TOLERANCE_PIXELS = 0.125;

const FILES = comparedIcons();

/**
 * The files, by their place among those compared (from 0), whose pictures do not tell: limits of the comparison and no faults of the reading.
 * - 'drawn twice': the same outline is in the file twice. The renderer covers the pixels of its edge twice (two coverages of a
 *   half are three quarters); we remove the double and say so.
 * - 'partly transparent': coverage is summed from opacity, and a part of this picture is seen through.
 */
const EXCEPTIONS: ReadonlyMap<number, 'drawn twice' | 'partly transparent'> = new Map([
  [1006, 'drawn twice'],
  [1241, 'drawn twice'],
  [1825, 'drawn twice'],
  [2742, 'drawn twice'],
  [3293, 'drawn twice'],
  [3294, 'drawn twice'],
  [3791, 'drawn twice'],
  [4209, 'drawn twice'],
  [5140, 'partly transparent'],
]);

/** Is the file what the list says that it is? */
function whyExcepted(text: string, drawing: Drawing): string | undefined {
  if (drawing.repairs.some(({ kind }) => kind === 'removed-double')) return 'drawn twice';
  return /opacity=/.test(text) ? 'partly transparent' : undefined;
}

interface Compared {
  readonly name: string;
  readonly error: number;
  /** Why the file would be an exception, by its content. */
  readonly exception: string | undefined;
}

function compare(file: CorpusFile, text: string, drawn = text): Compared {
  const drawing = readSvg(text, { name: file.name });
  if (drawing.size.kind !== 'open') throw new Error(`${file.name} has a size of its own`);
  const { perInch, widthMm, heightMm } = drawing.size.choices[0]!;
  const [width, height] = [(widthMm * perInch) / 25.4, (heightMm * perInch) / 25.4];
  const scale = PIXELS / width;
  const area = filledArea(drawing, width, height) * scale * scale;
  const error = (area - rasterArea(drawn, PIXELS)) / (drawnLength(drawing) * scale);
  return { name: file.name, error, exception: whyExcepted(text, drawing) };
}

describe('filled area of open icon sets', () => {
  it('is what an independent renderer draws', { timeout: 240_000 }, () => {
    expect(FILES.length).toBeGreaterThan(5000);
    const compared = FILES.map((file) => compare(file, file.read()));
    const counted = compared.filter((_, place) => !EXCEPTIONS.has(place));
    expect(counted.filter(({ error }) => !(Math.abs(error) <= TOLERANCE_PIXELS))).toEqual([]);
    const excepted = compared.flatMap(({ exception }, place) => (exception === undefined ? [] : [[place, exception]]));
    expect(excepted).toEqual([...EXCEPTIONS]);
    // Errors of single files are the renderer's rounding; a fault of ours would shift their mean.
    const mean = counted.reduce((sum, { error }) => sum + error, 0) / counted.length;
    expect(Math.abs(mean)).toBeLessThan(0.01);
  });

  it('tells a drawing with one arc turned the wrong way', () => {
    const large = /(A[3-9](?:\.\d+)?[ ,][3-9](?:\.\d+)?[ ,]0[ ,][01][ ,])([01])/;
    const arcs = FILES.filter((file) => large.test(file.read())).slice(0, 50);
    expect(arcs.length).toBeGreaterThan(20);
    const told = arcs.filter((file) => {
      const text = file.read();
      const faulty = text.replace(
        /([Aa][\d.]+[ ,][\d.]+[ ,]0[ ,][01][ ,])([01])/,
        (_, head, flag) => head + (1 - flag),
      );
      return Math.abs(compare(file, faulty, text).error) > TOLERANCE_PIXELS;
    });
    // Short arcs of a large circle bulge by less than the tolerance whichever way they turn.
    expect(told.length).toBeGreaterThan(arcs.length / 2);
  });
});
