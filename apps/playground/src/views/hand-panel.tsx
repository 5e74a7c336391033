import { PhraseView } from '../sentence/phrase-view.tsx';
import { movedByHand, nestedAround, pinnedHere, unpinned } from '../state/by-hand.ts';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { placedName } from '../state/piece-name.ts';
import { useSay } from '../state/use-say.ts';
import type { BoardsView } from '../workers/views.ts';
import { inHand, turnedAboutMiddle } from './use-hand.ts';
import { whyBlocked } from './why-blocked.ts';

/** The selected piece in words, and what a hand can do with it. */
export function HandPanel({ desk, view }: { readonly desk: Desk; readonly view: BoardsView }) {
  const session = useSession();
  const say = useSay();
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
      if (place === null)
        session.notices.say(say.t('notice.no-room-to-turn', { why: whyBlocked(answer.why, view, say) }), 'look');
      else
        session.act(say.t('step.piece-turned', { piece: placedName(view, placement.id, say) }), (before) =>
          movedByHand(before, view, place, sheet),
        );
    });

  return (
    <div className="hand">
      {placement === undefined || kind === undefined ? (
        <p className="hint">{say.t('hand.choose')}</p>
      ) : (
        <>
          <p className="sentence">
            <PhraseView
              of={isPinned ? 'hand.piece-pinned' : 'hand.piece'}
              places={{ name: kind.name, number: kind.number, sign: placement.sign, sheet: sheet + 1 }}
            />
          </p>
          <div className="buttons">
            <button
              type="button"
              onClick={() =>
                session.act(
                  say.t(isPinned ? 'step.piece-free' : 'step.piece-pinned', {
                    piece: placedName(view, placement.id, say),
                  }),
                  (before) =>
                    isPinned ? unpinned(before, view, placement.id) : pinnedHere(before, view, placement.id),
                )
              }
            >
              {say.t(isPinned ? 'hand.let-go' : 'hand.pin')}
            </button>
            {step === 0 ? null : (
              <>
                <button type="button" onClick={() => turn(-step)}>
                  {say.t('hand.left', { degrees: step })}
                </button>
                <button type="button" onClick={() => turn(step)}>
                  {say.t('hand.right', { degrees: step })}
                </button>
              </>
            )}
          </div>
          <p className="hint">{say.t('hand.how')}</p>
        </>
      )}
      {held?.answer == null ? null : (
        <p className="live-figures" role="status">
          {held.answer.isFree
            ? say.t('hand.free')
            : say.t(held.answer.nearest === null ? 'hand.blocked' : 'hand.nearest', {
                why: whyBlocked(held.answer.why, view, say),
              })}
        </p>
      )}
      {desk.held.length === 0 && desk.job.pinned.length === 0 ? null : (
        <div className="buttons">
          {desk.held.length === 0 ? null : (
            <button
              type="button"
              className="strong"
              onClick={() => session.act(say.t('step.nest-around'), nestedAround)}
            >
              {desk.job.pinned.length === 0
                ? say.t('hand.around-again')
                : say.t('hand.around', { n: desk.job.pinned.length })}
            </button>
          )}
          {desk.job.pinned.length === 0 ? null : (
            <button
              type="button"
              onClick={() =>
                session.act(say.t('step.no-pins'), (before) => ({
                  ...before,
                  held: [],
                  job: { ...before.job, pinned: [] },
                }))
              }
            >
              {say.t('hand.no-pins')}
            </button>
          )}
        </div>
      )}
    </div>
  );
}
