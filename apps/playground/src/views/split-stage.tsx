import { useDeferredValue, useMemo } from 'react';
import { chosenPlan, splitParts } from '../picture/pictures.ts';
import { splitPicture } from '../picture/split-picture.ts';
import { Scene } from '../scene/scene.tsx';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { partName } from '../state/matters.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { seamWishOf } from '../state/seam-wish.ts';
import { useSay } from '../state/use-say.ts';
import type { ArtworkView, PartSplitView } from '../workers/views.ts';
import { DesignChoice } from './design-choice.tsx';
import { FaultNote } from './fault-note.tsx';
import { LookHere } from './look-here.tsx';
import { PlanChoice } from './plan-choice.tsx';
import { SeamHandles } from './seam-handles.tsx';
import { SeamSentences } from './seam-sentences.tsx';
import { BedSentence, CutSentences } from './split-sentences.tsx';
import { NoScene, Sentence, StageFrame } from './stage-frame.tsx';
import { usePartChoice } from './use-part-choice.ts';
import { usePictureWords } from './use-picture-words.ts';
import { type SeamDrag, useSeamDrag } from './use-seam-drag.ts';

/** The bed, what does not fit on it, and the seams. */
export function SplitStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const say = useSay();
  const words = usePictureWords();
  const choice = usePartChoice();
  const artwork = useDeferredValue(results.artwork.view);
  const split = useDeferredValue(results.split.view);
  const wanting = split === null ? [] : splitParts(split);
  const focus = wanting.find((part) => part.partId === choice.partId) ?? wanting[0] ?? null;
  const plan = chosenPlan(focus ?? undefined);
  const drag = useSeamDrag(focus?.partId ?? null, plan, seamWishOf(desk.job, focus?.partId ?? ''));
  const focusId = focus?.partId ?? null;
  const base = useMemo(
    () => (artwork === null || split === null ? null : splitPicture(artwork, split, focusId, choice.partId, words)),
    [artwork, split, focusId, choice.partId, words],
  );
  const picture = useMemo(() => (base === null ? null : drag.withPreview(base)), [base, drag.withPreview]);

  return (
    <StageFrame
      title={say.t('split.title')}
      scene={
        picture === null ? (
          <NoScene words={say.t(results.split.fault === null ? 'split.looking' : 'split.none-yet')} />
        ) : (
          <Scene
            stage="split"
            picture={picture}
            label={
              plan === null
                ? say.t('split.scene')
                : say.t('split.scene-part', { part: partName(focusId ?? '', artwork), n: plan.pieces.length })
            }
            unit={unit}
            selected={choice.selected}
            onSelect={choice.select}
            overlay={(project) =>
              plan === null ? null : (
                <SeamHandles desk={desk} plan={plan} partId={focusId ?? ''} project={project} drag={drag} />
              )
            }
          />
        )
      }
    >
      <DesignChoice />
      <FaultNote state={results.split} />
      <BedSentence desk={desk} split={split} artwork={artwork} />
      <CutSentences desk={desk} />
      {focus === null || artwork === null ? null : (
        <>
          <SplitPartChoice parts={wanting} artwork={artwork} chosen={focus.partId} />
          {focus.why === null ? null : (
            <div className="fault" role="alert">
              <p>
                <LookHere /> {focus.why.message}
              </p>
            </div>
          )}
          <SeamFigures drag={drag} />
          <SeamOffer drag={drag} />
          <PlanChoice part={focus} artwork={artwork} desk={desk} />
          <SeamSentences desk={desk} part={focus} />
        </>
      )}
    </StageFrame>
  );
}

/** What the seam in hand would be where it is held, and that the planner is at it once it was let go. */
function SeamFigures({ drag }: { readonly drag: SeamDrag }) {
  const say = useSay();
  const { preview, offer, isSettling } = drag;
  return (
    <>
      {preview === null || offer !== null ? null : (
        <p className="live-figures" role="status">
          {say.t('split.preview', {
            length: say.length(preview.lengthMm, 0),
            hidden: say.percent(preview.hiddenShare),
            held: say.percent(preview.heldShare),
            fits: preview.fits[0] && preview.fits[1] ? 'yes' : 'no',
          })}
        </p>
      )}
      {isSettling ? (
        <p className="live-figures" role="status">
          {say.t('split.settling')}
        </p>
      ) : null}
    </>
  );
}

/** A seam that cannot be led as drawn: what it would be instead, before anything is changed. */
function SeamOffer({ drag }: { readonly drag: SeamDrag }) {
  const say = useSay();
  const { offer } = drag;
  if (offer === null) return null;
  const places = { n: offer.pieces, held: say.percent(offer.heldShare) };
  return (
    <div className="fault is-quiet" role="alert">
      <p>
        {offer.visibleLengthMm < 0.05
          ? say.t('split.offer-hidden', places)
          : say.t('split.offer-shows', { ...places, length: say.length(offer.visibleLengthMm, 0) })}{' '}
        <button type="button" onClick={drag.takeOffer}>
          {say.t('split.take-offer')}
        </button>{' '}
        <button type="button" className="quiet" onClick={drag.giveUp}>
          {say.t('split.leave')}
        </button>
      </p>
    </div>
  );
}

/** Every part that is split or cannot be, to come to its seams. */
function SplitPartChoice({
  parts,
  artwork,
  chosen,
}: {
  readonly parts: readonly PartSplitView[];
  readonly artwork: ArtworkView;
  readonly chosen: string;
}) {
  const session = useSession();
  const say = useSay();
  if (parts.length < 2) return null;
  const nameOf = (id: string): string => artwork.parts.find((part) => part.id === id)?.name ?? id;
  return (
    <Sentence>
      <PhraseView
        of="split.shown-part"
        places={{
          part: (
            <ChoicePlace
              label={say.t('split.shown-label')}
              value={chosen}
              choices={parts.map(({ partId, number }) => ({
                value: partId,
                words: say.t('split.number-name', { number, name: nameOf(partId) }),
              }))}
              onChange={(partId) => session.gaze.update((gaze) => ({ ...gaze, partId, placementId: null }))}
            />
          ),
          n: parts.length,
        }}
      />
    </Sentence>
  );
}
