import type { Say } from '../words/say.ts';
import type { BoardsView } from '../workers/views.ts';

/** What a piece is called everywhere: its part's name and its number, "Backer (7a)". */
export function pieceName(view: Pick<BoardsView, 'kinds'>, pieceId: string, say: Say): string {
  const kind = view.kinds.find((candidate) => candidate.pieceId === pieceId);
  return kind === undefined ? pieceId : say.t('thing.piece', { name: kind.name, number: kind.number });
}

/** The same for a copy that lies on a board, by the id of its placement. */
export function placedName(view: Pick<BoardsView, 'kinds' | 'sheets'>, placementId: string, say: Say): string {
  const placements = view.sheets.flatMap((sheet) => sheet.placements);
  const placement = placements.find(({ id }) => id === placementId);
  return placement === undefined ? placementId : pieceName(view, placement.pieceId, say);
}
