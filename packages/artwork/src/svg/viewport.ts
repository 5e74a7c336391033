import { IDENTITY, type Matrix } from '@underlap/geometry/matrix';
import { PathScanner } from '../path-scanner.ts';

export interface ViewBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Below this a side is zero to all who draw, and its reciprocal leaves the numbers that can be computed with; user units. */
const SMALLEST_SIDE = 1e-12;

/** Read `viewBox`; null when it is missing or broken (a negative or zero side draws nothing and counts as broken). */
export function parseViewBox(text: string | undefined): ViewBox | null {
  if (text === undefined) return null;
  const scanner = new PathScanner(text);
  const numbers = [scanner.number(), scanner.number(), scanner.number(), scanner.number()];
  const [x, y, width, height] = numbers;
  if (x == null || y == null || width == null || height == null || !scanner.isDone()) return null;
  return width >= SMALLEST_SIDE && height >= SMALLEST_SIDE ? { x, y, width, height } : null;
}

/**
 * The map from viewBox units to a viewport (x, y, width, height): SVG 2, 'The effect of the preserveAspectRatio attribute'.
 * @param fit - value of preserveAspectRatio; anything that cannot be read counts as the default, xMidYMid meet.
 */
export function viewportMatrix(view: ViewBox, viewport: ViewBox, fit: string | undefined): Matrix {
  const words = (fit ?? '')
    .trim()
    .split(/\s+/)
    .filter((word) => word !== 'defer');
  let sx = viewport.width / view.width;
  let sy = viewport.height / view.height;
  const align = /^x(Min|Mid|Max)Y(Min|Mid|Max)$/.exec(words[0] ?? '');
  if (words[0] !== 'none') sx = sy = words[1] === 'slice' && align !== null ? Math.max(sx, sy) : Math.min(sx, sy);
  const share: Record<string, number> = { Min: 0, Mid: 0.5, Max: 1 };
  const shareX = words[0] === 'none' ? 0 : share[align?.[1] ?? 'Mid']!;
  const shareY = words[0] === 'none' ? 0 : share[align?.[2] ?? 'Mid']!;
  return {
    ...IDENTITY,
    a: sx,
    d: sy,
    e: viewport.x - view.x * sx + (viewport.width - view.width * sx) * shareX,
    f: viewport.y - view.y * sy + (viewport.height - view.height * sy) * shareY,
  };
}
