import type { Drawing } from '@underlap/artwork/drawing';
import { readSvg } from '@underlap/artwork/svg/read-svg';
import { describe, expect, it } from 'vitest';
import { drawnLength, filledArea } from '../support/drawn-area.ts';
import { type CorpusFile, iconCorpus } from '../support/icon-corpus.ts';
import { rasterArea } from '../support/raster-area.ts';

/**
 * Filled area against an independent renderer: @resvg/resvg-js 2.6 draws each file 128 pixels wide, and the sum of its
 * coverage is compared with the area of what we read. A renderer with anti-aliasing is wrong by a share of a pixel along
 * every edge, so the tolerance goes with the length of the outlines.
 */
const PIXELS = 128;

/** Largest mean error along the outlines, pixels: a sixteenth is the renderer's own sub-pixel step, with as much to spare. */
const TOLERANCE_PIXELS = 0.125;

/** Every file of the smaller set and every second of the larger one: 5,802 files. */
const FILES = iconCorpus().filter((file, index) => !file.name.startsWith('svg/') || index % 2 === 0);

/** Why a file is left out, or null; both are the comparison's limits and not ours. */
function exceptionFor(text: string, drawing: Drawing): 'drawn twice' | 'partly transparent' | null {
  // The renderer covers the pixels of an edge twice; we remove the double.
  if (drawing.repairs.some(({ kind }) => kind === 'removed-double')) return 'drawn twice';
  // Coverage is summed from opacity.
  return /opacity=/.test(text) ? 'partly transparent' : null;
}

interface Compared {
  readonly name: string;
  readonly error: number;
  readonly exception: string | null;
}

function compare(file: CorpusFile, text: string, drawn = text): Compared {
  const drawing = readSvg(text, { name: file.name });
  if (drawing.size.kind !== 'open') throw new Error(`${file.name} has a size of its own`);
  const { perInch, widthMm, heightMm } = drawing.size.choices[0]!;
  const [width, height] = [(widthMm * perInch) / 25.4, (heightMm * perInch) / 25.4];
  const scale = PIXELS / width;
  const area = filledArea(drawing, width, height) * scale * scale;
  const error = (area - rasterArea(drawn, PIXELS)) / (drawnLength(drawing) * scale);
  return { name: file.name, error, exception: exceptionFor(text, drawing) };
}

describe('filled area of open icon sets', () => {
  it('is what an independent renderer draws', { timeout: 240_000 }, () => {
    expect(FILES.length).toBeGreaterThan(5000);
    const compared = FILES.map((file) => compare(file, file.read()));
    const counted = compared.filter(({ exception }) => exception === null);
    expect(counted.filter(({ error }) => !(Math.abs(error) <= TOLERANCE_PIXELS))).toEqual([]);
    const exceptions = compared.flatMap(({ exception }) => exception ?? []);
    expect(exceptions.filter((why) => why === 'drawn twice').length).toBeLessThan(40);
    expect(exceptions.filter((why) => why === 'partly transparent')).toHaveLength(1);
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
