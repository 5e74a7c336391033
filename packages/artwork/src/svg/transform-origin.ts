import type { Point } from '@underlap/geometry/point';
import type { Bounds } from '@underlap/geometry/ring';
import type { LengthBase } from '../units.ts';
import { lengthInPx } from './calculated.ts';

/** What relative lengths refer to. */
export type FontSizes = Omit<LengthBase, 'whole'>;

/** Shares of the box's sides that the keywords stand for. */
const ACROSS: Readonly<Record<string, number>> = { left: 0, center: 0.5, right: 1 };
const DOWN: Readonly<Record<string, number>> = { top: 0, center: 0.5, bottom: 1 };

/**
 * The point that a CSS transform turns about. Source: CSS Transforms Level 1, 'The transform-origin Property'.
 * @param text - one to three values: lengths, percentages, keywords; a third, the depth, means nothing on paper.
 * @param box - what percentages and keywords refer to, user units.
 * @returns null when it cannot be read.
 */
export function transformOrigin(text: string, box: Bounds, fonts: FontSizes): Point | null {
  const words = text.trim().toLowerCase().split(/\s+/);
  if (words.length > 3 || words[0] === '') return null;
  let [first = 'center', second = 'center'] = words;
  // Keywords may come in either order; one alone speaks for its own direction.
  if (first === 'top' || first === 'bottom' || second === 'left' || second === 'right')
    [first, second] = [second, first];
  const x = along(first, ACROSS, box.minX, box.maxX, fonts);
  const y = along(second, DOWN, box.minY, box.maxY, fonts);
  return x === null || y === null ? null : { x, y };
}

function along(
  word: string,
  shares: Readonly<Record<string, number>>,
  from: number,
  to: number,
  fonts: FontSizes,
): number | null {
  const share = shares[word];
  if (share !== undefined) return from + share * (to - from);
  const px = lengthInPx(word, { whole: to - from, ...fonts });
  return px === null ? null : from + px;
}
