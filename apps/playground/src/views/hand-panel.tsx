import { movedByHand, nestedAround, pinnedHere, unpinned } from '../state/by-hand.ts';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { BoardsView } from '../workers/views.ts';
import { inHand, turnedAboutMiddle } from './use-hand.ts';
import { count } from './use-say.ts';

/** The selected piece in words, and what a hand can do with it. */
export function HandPanel({ desk, view }: { readonly desk: Desk; readonly view: BoardsView }) {
  const session = useSession();
  const { placementId } = useValue(session.gaze);
  const held = useValue(inHand);
  const sheet = view.sheets.findIndex((candidate) =>
    candidate.placements.some((placement) => placement.id === placementId),
  );
  const placement = view.sheets[sheet]?.placements.find((candidate) => candidate.id === placementId);
  const kind = view.kinds.find((candidate) => candidate.pieceId === placement?.pieceId);
  const isPinned = desk.job.pinned.some((place) => place.piece === placementId);
  const rule = kind === undefined ? 'quarter' : (desk.job.turns.parts[kind.partId] ?? desk.job.turns.default);
  const step = typeof rule === 'object' ? rule.stepDeg : { fixed: 0, half: 180, quarter: 90, any: 15 }[rule];

  const turn = (degrees: number): void =>
    void session.attempt(async () => {
      if (placement === undefined) return;
      const turned = turnedAboutMiddle(view, placement, degrees);
      const answer = await session.client.ask((api) => api.touch({ sheet, placement: turned }));
      const place = answer.isFree ? turned : answer.nearest === null ? null : { ...turned, ...answer.nearest };
      if (place === null) session.notices.say(`No room to turn it: ${answer.why}`, 'look');
      else session.act(`${placement.id} turned by hand`, (before) => movedByHand(before, view, place, sheet));
    });

  return (
    <div className="hand">
      {placement === undefined || kind === undefined ? (
        <p className="hint">Choose a piece to pin, turn or move it; the chosen one can be dragged.</p>
      ) : (
        <>
          <p className="sentence">
            <strong>{kind.name}</strong> ({kind.number}) of sign {placement.sign}, on sheet {sheet + 1}
            {isPinned ? ', pinned' : ''}.
          </p>
          <div className="buttons">
            <button
              type="button"
              onClick={() =>
                session.act(isPinned ? `${placement.id} let go` : `${placement.id} pinned`, (before) =>
                  isPinned ? unpinned(before, view, placement.id) : pinnedHere(before, view, placement.id),
                )
              }
            >
              {isPinned ? 'Let it go' : 'Pin it here'}
            </button>
            {step === 0 ? null : (
              <>
                <button type="button" onClick={() => turn(-step)}>
                  Turn left {step}&deg;
                </button>
                <button type="button" onClick={() => turn(step)}>
                  Turn right {step}&deg;
                </button>
              </>
            )}
          </div>
          <p className="hint">Drag it, or press m on the drawing, move it with the arrow keys, and Enter.</p>
        </>
      )}
      {held?.answer == null ? null : (
        <p className="live-figures" role="status">
          {held.answer.isFree
            ? 'Free here.'
            : `${held.answer.why} ${held.answer.nearest === null ? 'No free place near.' : 'It would go to the nearest free place.'}`}
        </p>
      )}
      {desk.held.length === 0 && desk.job.pinned.length === 0 ? null : (
        <div className="buttons">
          {desk.held.length === 0 ? null : (
            <button
              type="button"
              className="strong"
              onClick={() => session.act('the rest nested around', nestedAround)}
            >
              Nest the rest around{' '}
              {desk.job.pinned.length === 0 ? 'again' : `the ${count(desk.job.pinned.length, 'pinned piece')}`}
            </button>
          )}
          {desk.job.pinned.length === 0 ? null : (
            <button
              type="button"
              onClick={() =>
                session.act('all pins taken out', (before) => ({
                  ...before,
                  held: [],
                  job: { ...before.job, pinned: [] },
                }))
              }
            >
              Take out all pins
            </button>
          )}
        </div>
      )}
    </div>
  );
}
