import type { BoardsView } from '../workers/views.ts';
import { boardsPicture, PLAIN_LOOK } from './boards-picture.ts';
import { type Ink, type Picture, rectanglePath } from './ink.ts';
import { hangSheets } from './wall.ts';

/** The sheets as they leave: a small pile, the first one in full. */
export function filesPicture(boards: BoardsView): Picture {
  const [first] = boards.sheets;
  if (first === undefined) return boardsPicture(boards, PLAIN_LOOK);
  const top = boardsPicture({ ...boards, sheets: [first] }, PLAIN_LOOK);
  const step = first.width * 0.05;
  const below = Math.min(boards.sheets.length - 1, 3);
  const pile: Ink[] = [];
  for (let i = below; i > 0; i--) {
    pile.push({
      d: rectanglePath(i * step, -i * step, first.width, first.height),
      fill: 'board',
      stroke: 'soft',
      widthPx: 1,
    });
  }
  const [hung] = hangSheets([first], 1);
  const { x = 0, y = 0 } = hung ?? {};
  return {
    ...top,
    bounds: { minX: x, minY: y - below * step, maxX: x + first.width + below * step, maxY: y + first.height },
    inks: [...pile, ...top.inks],
  };
}
