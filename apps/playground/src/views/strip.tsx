import { memo, useDeferredValue, useMemo } from 'react';
import { boardsPicture, PLAIN_LOOK } from '../picture/boards-picture.ts';
import { filesPicture } from '../picture/files-picture.ts';
import type { Picture } from '../picture/ink.ts';
import { NO_WORDS } from '../picture/picture-words.ts';
import { artworkPicture, splitParts } from '../picture/pictures.ts';
import { splitPicture } from '../picture/split-picture.ts';
import { stackPicture } from '../picture/stack-picture.ts';
import { Thumbnail } from '../scene/thumbnail.tsx';
import { useSession, useValue } from '../state/page-context.ts';
import type { Results, StageState } from '../state/results.ts';
import { useSay } from '../state/use-say.ts';
import { STAGES, type StageId } from '../workers/views.ts';
import { complaintsOf, outcomeLine } from './outcome-lines.ts';
import { STAGE_WORDS } from './stage-words.ts';

const THUMB = { width: 104, height: 78 } as const;

/** The life of the job as a strip of small live pictures; one row that stays in sight where there is little room. */
export function Strip() {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { stage: chosen } = useValue(session.gaze);
  const say = useSay();
  const pictures = usePictures(useDeferredValue(results));
  return (
    <nav className="strip" aria-label={say.t('page.stages')}>
      <ol>
        {STAGES.map((stage) => (
          <li key={stage}>
            <Card
              stage={stage}
              isChosen={stage === chosen}
              state={results[stage]}
              results={results}
              picture={pictures[stage]}
              onChoose={() => session.gaze.update((gaze) => ({ ...gaze, stage }))}
            />
          </li>
        ))}
      </ol>
    </nav>
  );
}

interface CardProps {
  readonly stage: StageId;
  readonly isChosen: boolean;
  readonly state: StageState<unknown>;
  readonly results: Results;
  readonly picture: Picture | null;
  onChoose(): void;
}

function Card({ stage, isChosen, state, results, picture, onChoose }: CardProps) {
  const say = useSay();
  const complaints = complaintsOf(stage, results, say);
  const isStale = state.status === 'waiting' || state.status === 'working';
  return (
    <button
      type="button"
      className={`card is-${state.status}${isChosen ? ' is-chosen' : ''}`}
      aria-current={isChosen ? 'step' : undefined}
      onClick={onChoose}
    >
      <span className={isStale ? 'card-picture is-stale' : 'card-picture'}>
        {picture === null ? <span className="card-blank" /> : <StillPicture picture={picture} />}
      </span>
      <span className="card-words">
        <span className="card-title">{say.t(STAGE_WORDS[stage])}</span>
        <span className="card-line">{outcomeLine(stage, results, say)}</span>
        {complaints > 0 ? (
          <span className="badge">
            <span aria-hidden="true">!</span>{' '}
            <span className="badge-words">{say.t('line.to-look-at', { n: complaints })}</span>
          </span>
        ) : null}
      </span>
      {state.status === 'working' ? (
        <span className="card-bar" style={{ transform: `scaleX(${Math.max(state.done, 0.04)})` }} />
      ) : null}
    </button>
  );
}

const StillPicture = memo(function StillPicture({ picture }: { readonly picture: Picture }) {
  return <Thumbnail picture={picture} width={THUMB.width} height={THUMB.height} />;
});

/** The pictures of all stages; each is made anew only when its own view changed. */
function usePictures(results: Results): Readonly<Record<StageId, Picture | null>> {
  const artwork = results.artwork.view;
  const stack = results.stack.view;
  const split = results.split.view;
  const boards = results.boards.view;
  const files = results.files.view;
  return {
    artwork: useMemo(() => (artwork === null ? null : artworkPicture(artwork, null, NO_WORDS)), [artwork]),
    stack: useMemo(
      () =>
        artwork === null || stack === null
          ? null
          : stackPicture(artwork, stack, { peeled: 0, apart: 0.6, showsGuides: false }, null, NO_WORDS),
      [artwork, stack],
    ),
    split: useMemo(
      () =>
        artwork === null || split === null
          ? null
          : splitPicture(artwork, split, splitParts(split)[0]?.partId ?? null, null, NO_WORDS),
      [artwork, split],
    ),
    boards: useMemo(() => (boards === null ? null : boardsPicture(boards, { ...PLAIN_LOOK, aspect: 4 / 3 })), [boards]),
    files: useMemo(() => (boards === null || files === null ? null : filesPicture(boards)), [boards, files]),
  };
}
