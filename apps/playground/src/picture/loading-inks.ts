import type { Point } from '@underlap/geometry/point';
import type { Bounds } from '@underlap/geometry/ring';
import type { LoadingView } from '../workers/views.ts';
import { type Caption, type Ink, rectanglePath } from './ink.ts';
import type { HungSheet } from './wall.ts';

/** Where the bed lies on a board, one loading after the other, in their order; the one looked at with the way the board moves to it. */
export function loadingInks({ x, y, sheet }: HungSheet, looked: LoadingView | null): Ink[] {
  const spot = { x, y, turnDeg: 0, mirrored: false };
  const middles = sheet.loadings.map(({ page }) => middleOf(page));
  const order = middles.map((at, index) => `${index === 0 ? 'M' : 'L'}${pointWords(at)}`).join('');
  return [
    ...(middles.length > 1
      ? [{ d: order, spot, stroke: 'number', widthPx: 1, dashPx: [2, 5], alpha: 0.7 } as const]
      : []),
    ...sheet.loadings.flatMap((loading): Ink[] => {
      const { page } = loading;
      const d = rectanglePath(page.minX, page.minY, page.maxX - page.minX, page.maxY - page.minY);
      return loading === looked
        ? [
            { d, spot, fill: 'number', alpha: 0.1 },
            { d, spot, stroke: 'number', widthPx: 3 },
            ...moveInks(loading, spot),
          ]
        : [{ d, spot, stroke: 'number', widthPx: 1.2, dashPx: [12, 4, 2, 4], alpha: 0.8 }];
    }),
  ];
}

/** The number of each loading in its upper left corner. */
export function loadingCaptions({ x, y, sheet }: HungSheet): Caption[] {
  return sheet.loadings.map(({ number, page }) => ({
    text: String(number),
    x: x + page.minX,
    y: y + page.minY,
    dxPx: 8,
    dyPx: 12,
    sizePx: 14,
    align: 'left',
    tint: 'number',
    hasHalo: true,
  }));
}

/** How long the arrow is at most, as a share of the loading's shorter side. */
const ARROW_SHARE = 0.34;

/** An arrow the way the board moves: in the board's own frame, which is turned where the file is. */
function moveInks({ move, isTurned, page }: LoadingView, spot: Ink['spot']): Ink[] {
  if (move === null) return [];
  const way = isTurned ? { x: move.y, y: -move.x } : move;
  const length = Math.hypot(way.x, way.y);
  if (length === 0 || spot === undefined) return [];
  const reach = Math.min(page.maxX - page.minX, page.maxY - page.minY) * ARROW_SHARE;
  const step = { x: (way.x / length) * reach, y: (way.y / length) * reach };
  const at = middleOf(page);
  const from = { x: at.x - step.x, y: at.y - step.y };
  const to = { x: at.x + step.x, y: at.y + step.y };
  const barb = (side: 1 | -1): Point => ({
    x: to.x - step.x * 0.4 - side * step.y * 0.28,
    y: to.y - step.y * 0.4 + side * step.x * 0.28,
  });
  const d = `M${pointWords(from)}L${pointWords(to)}M${pointWords(barb(1))}L${pointWords(to)}L${pointWords(barb(-1))}`;
  return [
    { d, spot, stroke: 'card', widthPx: 7, alpha: 0.8 },
    { d, spot, stroke: 'number', widthPx: 3.5 },
  ];
}

function middleOf({ minX, minY, maxX, maxY }: Bounds): Point {
  return { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
}

function pointWords({ x, y }: Point): string {
  return `${x.toFixed(2)} ${y.toFixed(2)}`;
}
