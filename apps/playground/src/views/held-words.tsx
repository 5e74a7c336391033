import { boxAt } from '../picture/ink.ts';
import { type HungSheet, hungAs } from '../picture/wall.ts';
import { useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { BoardsView } from '../workers/views.ts';
import { inHand } from './use-hand.ts';
import { whyBlocked } from './why-blocked.ts';

/** Over the piece in hand: whether it may lie there. Beside it the panel says the same to those who listen. */
export function HeldWords({
  view,
  hung,
  project,
}: {
  readonly view: BoardsView;
  readonly hung: readonly HungSheet[];
  project(x: number, y: number): { x: number; y: number };
}) {
  const say = useSay();
  const held = useValue(inHand);
  const kind = view.kinds.find((candidate) => candidate.pieceId === held?.placement.pieceId);
  const at = held === null ? null : hungAs(hung, held.sheet);
  if (held === null || held.answer === null || kind === undefined || at === null) return null;
  const box = boxAt(kind.box, { ...held.placement, x: held.placement.x + at.x, y: held.placement.y + at.y });
  const place = project((box.minX + box.maxX) / 2, box.minY);
  return (
    <p
      className={held.answer.isFree ? 'at-pointer is-good' : 'at-pointer is-look'}
      style={{ left: place.x, top: place.y }}
      aria-hidden="true"
    >
      {held.answer.isFree ? say.t('hand.free') : whyBlocked(held.answer.why, view, say)}
    </p>
  );
}
