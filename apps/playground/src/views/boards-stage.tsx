import { memo, useDeferredValue, useMemo, useState } from 'react';
import { boardsPicture } from '../picture/boards-picture.ts';
import { type HungSheet, hangSheets, hungAs, sheetAt } from '../picture/wall.ts';
import { Scene, type WorldPoint } from '../scene/scene.tsx';
import type { ViewportHand } from '../scene/use-viewport.ts';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { unplacedWords } from '../state/matters.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { BoardsView, StageId } from '../workers/views.ts';
import { BoardsSentences } from './boards-sentences.tsx';
import { FaultNote } from './fault-note.tsx';
import { HandPanel } from './hand-panel.tsx';
import { HeldWords } from './held-words.tsx';
import { type LoadingAt, LoadingList } from './loading-list.tsx';
import { LookHere } from './look-here.tsx';
import { OffcutList } from './offcut-list.tsx';
import { SearchProgress } from './search-progress.tsx';
import { ShelfFile } from './shelf-file.tsx';
import { SlideIn, slidesNow } from './slide-in.tsx';
import { More, NoScene, Sentence, StageFrame } from './stage-frame.tsx';
import { useHand } from './use-hand.ts';
import { useIsNarrow } from './use-is-narrow.ts';
import { usePictureWords } from './use-picture-words.ts';

/** All boards as a wall of sheets; the best layout grows while the search runs. */
export function BoardsStage({
  desk,
  from,
}: {
  readonly desk: Desk;
  /** The stage that was looked at before; null = none. */
  readonly from: StageId | null;
}) {
  const session = useSession();
  const say = useSay();
  const state = useValue(session.planning.results).boards;
  const view = useDeferredValue(state.view);
  const [isRaw, setRaw] = useState(false);
  const [looked, setLooked] = useState<LoadingAt | null>(null);
  const aspect = useIsNarrow() ? 0.9 : 1.5;
  const hung = useMemo(() => (view === null ? [] : hangSheets(view.sheets, aspect)), [view, aspect]);
  return (
    <StageFrame
      title={say.t('boards.title')}
      scene={
        view === null ? (
          <NoScene words={say.t(state.fault === null ? 'boards.waiting' : 'boards.nothing')} />
        ) : (
          <Wall desk={desk} view={view} hung={hung} aspect={aspect} isRaw={isRaw} looked={looked} from={from} />
        )
      }
    >
      <SearchProgress state={state} />
      <FaultNote state={state} />
      {view === null ? null : <Words desk={desk} view={view} />}
      <LoadingList hung={hung} looked={looked} onLook={setLooked} />
      {view === null ? null : <LookSentence isRaw={isRaw} onChange={setRaw} />}
      <Conditions desk={desk} view={view} />
      {view === null ? null : (
        <>
          <OffcutList desk={desk} view={view} />
          <More label={say.t('shelf-file.title')}>
            <ShelfFile desk={desk} />
          </More>
        </>
      )}
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
          {unplacedWords(view, say)
            .slice(0, 6)
            .map((words) => (
              <li key={words} className="look">
                <LookHere /> {words}
              </li>
            ))}
        </ul>
      )}
    </>
  );
}

const Wall = memo(function Wall({
  desk,
  view,
  hung,
  aspect,
  isRaw,
  looked,
  from,
}: {
  readonly desk: Desk;
  readonly view: BoardsView;
  readonly hung: readonly HungSheet[];
  readonly aspect: number;
  readonly isRaw: boolean;
  readonly looked: LoadingAt | null;
  readonly from: StageId | null;
}) {
  const session = useSession();
  const { unit } = useValue(session.preferences);
  const { partId, placementId } = useValue(session.gaze);
  const say = useSay();
  const words = usePictureWords();
  const artwork = useValue(session.planning.results).artwork.view;
  const [slides, setSlides] = useState(() => slidesNow(from, artwork, view));
  const hand = useHand(view, hung);
  const pinned = useMemo(() => new Set(desk.job.pinned.map((place) => place.piece)), [desk.job.pinned]);
  const picture = useMemo(
    () =>
      boardsPicture(view, {
        aspect,
        selected: placementId,
        partId,
        pinned,
        showsMarks: true,
        isRaw,
        words,
        loading: looked,
        held: hand.held,
      }),
    [view, aspect, placementId, partId, pinned, isRaw, words, looked, hand.held],
  );
  return (
    <Scene
      stage="boards"
      picture={picture}
      label={say.t('boards.scene', {
        boards: view.sheets.length,
        n: view.sheets.reduce((sum, sheet) => sum + sheet.placements.length, 0),
      })}
      unit={unit}
      selected={placementId === null ? null : `placement ${placementId}`}
      onSelect={hand.select}
      tools={{ ...hand.tools, onBlank: (at, viewport) => enlargeAt(hung, at, viewport) }}
      overlay={(project, viewport) => (
        <>
          <HeldWords view={view} hung={hung} project={project} />
          {slides && artwork !== null ? (
            <SlideIn
              artwork={artwork}
              boards={view}
              hung={hung}
              middle={{ x: viewport.view.centreX, y: viewport.view.centreY }}
              project={project}
              onDone={() => setSlides(false)}
            />
          ) : null}
        </>
      )}
    />
  );
});

/** A click on the bare wood of a board shows it large; the next one shows the whole wall again. */
function enlargeAt(hung: readonly HungSheet[], { x, y }: WorldPoint, viewport: ViewportHand): void {
  const below = sheetAt(hung, x, y);
  const at = below === null ? null : hungAs(hung, below.index);
  if (at === null || !viewport.isFitted) {
    viewport.fit();
    return;
  }
  viewport.lookAt(
    { minX: at.x, minY: at.y, maxX: at.x + at.sheet.width, maxY: at.y + at.sheet.height },
    SHEET_BORDER_PX,
  );
}

/** Room round a board that is shown large, CSS px. */
const SHEET_BORDER_PX = 36;

/** Painted as they will be, or as they come from the machine. */
function LookSentence({ isRaw, onChange }: { readonly isRaw: boolean; onChange(isRaw: boolean): void }) {
  const say = useSay();
  return (
    <Sentence>
      <PhraseView
        of="boards.look"
        places={{
          look: (
            <ChoicePlace
              label={say.t('boards.look-label')}
              value={isRaw ? 'raw' : 'painted'}
              choices={[
                { value: 'painted', words: say.t('boards.painted') },
                { value: 'raw', words: say.t('boards.raw') },
              ]}
              onChange={(look) => onChange(look === 'raw')}
            />
          ),
        }}
      />
    </Sentence>
  );
}
