import { memo, useDeferredValue, useMemo } from 'react';
import { boardsPicture, hangSheets } from '../picture/boards-picture.ts';
import { Scene } from '../scene/scene.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../words/use-say.ts';
import type { BoardsView } from '../workers/views.ts';
import { BoardsSentences } from './boards-sentences.tsx';
import { FaultNote } from './fault-note.tsx';
import { HandPanel } from './hand-panel.tsx';
import { LookHere } from './look-here.tsx';
import { OffcutList } from './offcut-list.tsx';
import { boardsLine } from './outcome-lines.ts';
import { SearchProgress } from './search-progress.tsx';
import { NoScene, StageFrame } from './stage-frame.tsx';
import { useHand } from './use-hand.ts';
import { useIsNarrow } from './use-is-narrow.ts';
import { usePictureWords } from './use-picture-words.ts';

/** All boards as a wall of sheets; the best layout grows while the search runs. */
export function BoardsStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const state = useValue(session.planning.results).boards;
  const view = useDeferredValue(state.view);
  return (
    <StageFrame
      title={say.t('boards.title')}
      scene={
        view === null ? (
          <NoScene words={say.t(state.fault === null ? 'boards.waiting' : 'boards.nothing')} />
        ) : (
          <Wall desk={desk} view={view} />
        )
      }
    >
      <SearchProgress state={state} />
      <FaultNote state={state} />
      {view === null ? null : <Words desk={desk} view={view} />}
      <Conditions desk={desk} view={view} />
      {view === null ? null : <OffcutList desk={desk} view={view} />}
    </StageFrame>
  );
}

/** What tells of the layout in words: not told anew with every step of the search's progress. */
const Words = memo(function Words({ desk, view }: { readonly desk: Desk; readonly view: BoardsView }) {
  return (
    <>
      <Verdict view={view} />
      <HandPanel desk={desk} view={view} />
    </>
  );
});
const Conditions = memo(BoardsSentences);

function Verdict({ view }: { readonly view: BoardsView }) {
  const say = useSay();
  const { verdict } = view;
  return (
    <>
      <p className="outcome">{boardsLine(view, say)}.</p>
      {verdict?.ok === true ? (
        <p className="good">
          <span aria-hidden="true">&#10003;</span>{' '}
          {say.t('boards.checked', {
            gap: say.length(verdict.smallestGapMm, 2),
            margin: say.length(verdict.smallestMarginMm, 2),
          })}
        </p>
      ) : null}
      {view.unplaced.length === 0 ? null : (
        <ul className="told">
          {view.unplaced.slice(0, 6).map((piece) => (
            <li key={piece.pieceId} className="look">
              <LookHere /> {say.t('boards.unplaced', { piece: piece.pieceId, why: piece.why })}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

const Wall = memo(function Wall({ desk, view }: { readonly desk: Desk; readonly view: BoardsView }) {
  const session = useSession();
  const { unit } = useValue(session.preferences);
  const { partId, placementId } = useValue(session.gaze);
  const say = useSay();
  const words = usePictureWords();
  const isNarrow = useIsNarrow();
  const aspect = isNarrow ? 0.9 : 1.5;
  const hung = useMemo(() => hangSheets(view.sheets, aspect), [view.sheets, aspect]);
  const hand = useHand(view, hung);
  const pinned = useMemo(() => new Set(desk.job.pinned.map((place) => place.piece)), [desk.job.pinned]);
  const picture = useMemo(
    () =>
      boardsPicture(view, { aspect, selected: placementId, partId, pinned, showsMarks: true, words, held: hand.held }),
    [view, aspect, placementId, partId, pinned, words, hand.held],
  );
  return (
    <Scene
      picture={picture}
      label={say.t('boards.scene', {
        boards: view.sheets.length,
        n: view.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0),
      })}
      unit={unit}
      selected={placementId === null ? null : `placement ${placementId}`}
      onSelect={hand.select}
      tools={hand.tools}
    />
  );
});
