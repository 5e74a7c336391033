import { useDeferredValue, useMemo } from 'react';
import { chosenPlan, splitParts, splitPicture } from '../picture/pictures.ts';
import { Scene } from '../scene/scene.tsx';
import { ChoicePlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { seamWishOf } from '../state/seam-wish.ts';
import type { ArtworkView, PartSplitView } from '../workers/views.ts';
import { FaultNote } from './fault-note.tsx';
import { PlanChoice } from './plan-choice.tsx';
import { SeamHandles } from './seam-handles.tsx';
import { BedSentences, SeamSentences } from './split-sentences.tsx';
import { NoScene, Sentence, StageFrame } from './stage-frame.tsx';
import { usePartChoice } from './use-part-choice.ts';
import { count, useSay } from './use-say.ts';
import { type SeamDrag, useSeamDrag } from './use-seam-drag.ts';

/** The bed, what does not fit on it, and the seams. */
export function SplitStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const say = useSay();
  const choice = usePartChoice();
  const artwork = useDeferredValue(results.artwork.view);
  const split = useDeferredValue(results.split.view);
  const wanting = split === null ? [] : splitParts(split);
  const focus = wanting.find((part) => part.partId === choice.partId) ?? wanting[0] ?? null;
  const plan = chosenPlan(focus ?? undefined);
  const drag = useSeamDrag(focus?.partId ?? null, plan, seamWishOf(desk.job, focus?.partId ?? ''));
  const focusId = focus?.partId ?? null;
  const base = useMemo(
    () => (artwork === null || split === null ? null : splitPicture(artwork, split, focusId, choice.partId)),
    [artwork, split, focusId, choice.partId],
  );
  const picture = useMemo(() => (base === null ? null : drag.withPreview(base)), [base, drag.withPreview]);

  return (
    <StageFrame
      title="Bed and seams"
      scene={
        picture === null ? (
          <NoScene words={results.split.fault === null ? 'Looking for seams' : 'No seams yet'} />
        ) : (
          <Scene
            picture={picture}
            label={`The split sign${plan === null ? '' : `, ${focusId ?? ''} in ${plan.pieces.length} pieces`}`}
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
      <FaultNote state={results.split} />
      <BedSentences desk={desk} split={split} artwork={artwork} />
      {focus === null || artwork === null ? null : (
        <>
          <SplitPartChoice parts={wanting} artwork={artwork} chosen={focus.partId} />
          {focus.why === null ? null : (
            <div className="fault" role="alert">
              <p>
                <strong>Look here: </strong>
                {focus.why.message}
              </p>
            </div>
          )}
          {drag.preview === null || drag.offer !== null ? null : (
            <p className="live-figures" role="status">
              There the seam would be {say.length(drag.preview.lengthMm, 0)} long,{' '}
              {say.percent(drag.preview.hiddenShare)} hidden, {say.percent(drag.preview.heldShare)} held;{' '}
              {drag.preview.fits[0] && drag.preview.fits[1]
                ? 'both sides fit the bed.'
                : 'a side would not fit the bed.'}
            </p>
          )}
          {drag.isSettling ? (
            <p className="live-figures" role="status">
              Working out whether a seam can run there
            </p>
          ) : null}
          <SeamOffer drag={drag} />
          <PlanChoice part={focus} artwork={artwork} desk={desk} />
          <SeamSentences desk={desk} part={focus} />
        </>
      )}
    </StageFrame>
  );
}

/** A seam that cannot be led as drawn: what it would be instead, before anything is changed. */
function SeamOffer({ drag }: { readonly drag: SeamDrag }) {
  const say = useSay();
  const { offer } = drag;
  if (offer === null) return null;
  return (
    <div className="fault is-quiet" role="alert">
      <p>
        A seam cannot run quite as drawn. The dashed line is what it would be: {count(offer.pieces, 'piece')},{' '}
        {offer.visibleLengthMm < 0.05 ? 'all hidden' : `${say.length(offer.visibleLengthMm, 0)} shows`},{' '}
        {say.percent(offer.heldShare)} held.{' '}
        <button type="button" onClick={drag.takeOffer}>
          Take it
        </button>{' '}
        <button type="button" className="quiet" onClick={drag.giveUp}>
          Leave the seam where it was
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
  if (parts.length < 2) return null;
  const name = (id: string): string => artwork.parts.find((part) => part.id === id)?.name ?? id;
  return (
    <Sentence>
      Shown are the seams of{' '}
      <ChoicePlace
        label="Part whose seams are shown"
        value={chosen}
        choices={parts.map((part) => ({ value: part.partId, words: `${part.number}, ${name(part.partId)}` }))}
        onChange={(partId) => session.gaze.update((gaze) => ({ ...gaze, partId, placementId: null }))}
      />
      ; {count(parts.length, 'part')} of this sign need some.
    </Sentence>
  );
}
