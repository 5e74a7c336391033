import type { BoardsView, PlacementView } from '../workers/views.ts';
import type { Desk, PinnedPlace } from './desk.ts';

/** A placement as the job file writes it. */
export function pinOf(placement: PlacementView, sheet: number, stock: string): PinnedPlace {
  const { id: piece, x, y, turnDeg, mirrored } = placement;
  return { piece, sheet, stock, x, y, turnDeg, mirrored };
}

/** Every placement of a layout, held where it stands. */
function holdAll(view: BoardsView): PinnedPlace[] {
  return view.sheets.flatMap((sheet, index) =>
    sheet.placements.map((placement) => pinOf(placement, index, sheet.stockId)),
  );
}

/** The desk after a piece was set down: it is pinned there, everything else is held where it stands. */
export function movedByHand(desk: Desk, view: BoardsView, placement: PlacementView, sheet: number): Desk {
  const stock = view.sheets[sheet]?.stockId;
  if (stock === undefined) return desk;
  const others = desk.job.pinned.filter((place) => place.piece !== placement.id);
  return {
    ...desk,
    job: { ...desk.job, pinned: [...others, pinOf(placement, sheet, stock)] },
    held: holdAll(view).filter((place) => place.piece !== placement.id),
  };
}

/** The desk with a piece pinned where it lies; nothing else changes. */
export function pinnedHere(desk: Desk, view: BoardsView, id: string): Desk {
  const place = holdAll(view).find((candidate) => candidate.piece === id);
  if (place === undefined) return desk;
  return {
    ...desk,
    job: { ...desk.job, pinned: [...desk.job.pinned.filter((other) => other.piece !== id), place] },
    held: holdAll(view).filter((candidate) => candidate.piece !== id),
  };
}

/** The desk with a piece let go; it stays where it is until the rest is nested around. */
export function unpinned(desk: Desk, view: BoardsView, id: string): Desk {
  return {
    ...desk,
    job: { ...desk.job, pinned: desk.job.pinned.filter((place) => place.piece !== id) },
    held: holdAll(view).filter(
      (place) => !desk.job.pinned.some((pin) => pin.piece === place.piece && pin.piece !== id),
    ),
  };
}

/** The desk with nothing held: what is not pinned is laid out anew around what is. */
export function nestedAround(desk: Desk): Desk {
  return desk.held.length === 0 ? desk : { ...desk, held: [] };
}
