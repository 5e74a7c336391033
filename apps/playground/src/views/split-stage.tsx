import { useMemo } from 'react';
import { chosenPlan, splitParts, splitPicture } from '../picture/pictures.ts';
import { Scene } from '../scene/scene.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { FaultNote } from './fault-note.tsx';
import { PlanChoice } from './plan-choice.tsx';
import { SeamHandles } from './seam-handles.tsx';
import { BedSentences, SeamSentences } from './split-sentences.tsx';
import { NoScene, StageFrame } from './stage-frame.tsx';
import { usePartChoice } from './use-part-choice.ts';
import { useSay } from './use-say.ts';
import { useSeamDrag } from './use-seam-drag.ts';

/** The bed, what does not fit on it, and the seams. */
export function SplitStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const say = useSay();
  const choice = usePartChoice();
  const artwork = results.artwork.view;
  const split = results.split.view;
  const wanting = split === null ? [] : splitParts(split);
  const focus = wanting.find((part) => part.partId === choice.partId) ?? wanting[0] ?? null;
  const plan = chosenPlan(focus ?? undefined);
  const drag = useSeamDrag(focus?.partId ?? null, plan);
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
          {focus.why === null ? null : (
            <div className="fault" role="alert">
              <p>
                <strong>Look here: </strong>
                {focus.why.message}
              </p>
            </div>
          )}
          {drag.preview === null ? null : (
            <p className="live-figures" role="status">
              There the seam would be {say.length(drag.preview.lengthMm, 0)} long,{' '}
              {say.percent(drag.preview.hiddenShare)} hidden;{' '}
              {drag.preview.fits[0] && drag.preview.fits[1]
                ? 'both sides fit the bed.'
                : 'a side would not fit the bed.'}
            </p>
          )}
          <PlanChoice part={focus} artwork={artwork} desk={desk} />
          <SeamSentences desk={desk} part={focus} />
        </>
      )}
    </StageFrame>
  );
}
