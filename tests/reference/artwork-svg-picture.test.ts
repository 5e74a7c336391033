import { Resvg } from '@resvg/resvg-js';
import type { Drawing } from '@underlap/artwork/drawing';
import { readSvg } from '@underlap/artwork/svg/read-svg';
import { contourToPathData } from '@underlap/geometry/path-data';
import { describe, expect, it } from 'vitest';
import { randomSvg } from '../support/random-svg.ts';

/**
 * What we read, drawn again from its bare contours in document order, against the original drawn by the same independent
 * renderer (@resvg/resvg-js 2.6): transforms, viewports, references, styles and colours all have to be right for the two
 * pictures to agree pixel by pixel. Random drawings with fixed seeds.
 */
const WIDTH = 300;

function pixels(svg: string): Uint8Array {
  return new Resvg(svg, {
    fitTo: { mode: 'width', value: WIDTH },
    background: '#ffffff',
    font: { loadSystemFonts: false },
  }).render().pixels;
}

/** A drawing of bare paths in root units. */
function redrawn(drawing: Drawing): string {
  const paths = drawing.shapes
    .filter((shape) => shape.fill !== null)
    .map((shape) => {
      const data = shape.contours.map((contour) => contourToPathData(contour, 6)).join(' ');
      return `<path fill="${shape.fill}" fill-rule="${shape.fillRule}" d="${data}"/>`;
    });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="150" viewBox="0 0 200 150">${paths.join('')}</svg>`;
}

/** Share of pixels that differ by more than rounding of anti-aliased edges. */
function difference(a: Uint8Array, b: Uint8Array): number {
  let count = 0;
  for (let i = 0; i < a.length; i += 4) {
    const delta = Math.max(...[0, 1, 2].map((channel) => Math.abs(a[i + channel]! - b[i + channel]!)));
    if (delta > 40) count++;
  }
  return count / (a.length / 4);
}

const SEEDS = Array.from({ length: 300 }, (_, i) => `picture-${i}`);

/** Pixels that may differ: a handful where curves are flattened differently by the renderer. */
const SHARE = 3e-4;

describe('random drawings', () => {
  it('look the same when drawn from what was read', { timeout: 120_000 }, () => {
    const wrong = SEEDS.flatMap((seed) => {
      const text = randomSvg(seed);
      const share = difference(pixels(text), pixels(redrawn(readSvg(text, { name: seed, repair: false }))));
      return share <= SHARE ? [] : [{ seed, share }];
    });
    expect(wrong).toEqual([]);
  });

  it('look different when a turn, a colour or a reference is wrong', () => {
    const faults: readonly (readonly [RegExp, string])[] = [
      [/rotate\(/g, 'rotate(2 '],
      [/olive|teal|#335577/g, 'red'],
      [/href="#one"/g, 'href="#d"'],
      [/skewX/g, 'skewY'],
    ];
    for (const [from, to] of faults) {
      const told = SEEDS.slice(0, 60).filter((seed) => {
        const text = randomSvg(seed);
        const faulty = text.replace(from, to);
        if (faulty === text) return false;
        const read = readSvg(faulty, { name: seed, repair: false });
        return difference(pixels(text), pixels(redrawn(read))) > SHARE;
      });
      expect(told.length).toBeGreaterThan(5);
    }
  });
});
