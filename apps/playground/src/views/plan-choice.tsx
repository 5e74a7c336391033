import { memo, useMemo } from 'react';
import { seamInks } from '../picture/split-picture.ts';
import { Thumbnail } from '../scene/thumbnail.tsx';
import { PhraseView } from '../sentence/phrase-view.tsx';
import type { Desk } from '../state/desk.ts';
import { spotAt } from '../state/matters.ts';
import { useSession } from '../state/page-context.ts';
import { seamWishOf, withSeamWish } from '../state/seam-wish.ts';
import { useSay } from '../state/use-say.ts';
import type { WordKey } from '../words/catalogue.ts';
import type { ArtworkView, PartSplitView, PartView, PlanView } from '../workers/views.ts';
import { ShowPlace } from './show-place.tsx';

const MERITS = {
  fewest: 'plan.fewest',
  'most-hidden': 'plan.most-hidden',
  strongest: 'plan.strongest',
} as const satisfies Readonly<Record<string, WordKey>>;

const isMerit = (merit: string): merit is keyof typeof MERITS => Object.hasOwn(MERITS, merit);

/** The plans for one part as small pictures to choose from. */
export function PlanChoice({
  part,
  artwork,
  desk,
}: {
  readonly part: PartSplitView;
  readonly artwork: ArtworkView;
  readonly desk: Desk;
}) {
  const session = useSession();
  const say = useSay();
  const drawn = artwork.parts.find((candidate) => candidate.id === part.partId);
  if (drawn === undefined || part.plans.length === 0) return null;
  const proof = part.isProvenFewest ? say.t('plan.proved') : say.t('plan.at-least', { n: part.piecesLowerBound });
  return (
    <fieldset className="plans">
      <legend>
        <PhraseView of="plan.ways" places={{ name: drawn.name, n: part.plans.length, proof }} />
      </legend>
      <div className="plan-row">
        {part.plans.map((plan) => (
          <PlanCard
            key={plan.id}
            plan={plan}
            part={drawn}
            isChosen={plan.id === part.chosenPlanId}
            onChoose={() =>
              session.actOnJob(say.t('step.plan', { plan: plan.id, part: drawn.name }), (job) =>
                withSeamWish(job, part.partId, { ...seamWishOf(desk.job, part.partId), plan: plan.id }),
              )
            }
          />
        ))}
      </div>
      {part.plans
        .find((plan) => plan.id === part.chosenPlanId)
        ?.remarks.map((remark) => (
          <p key={remark.code + remark.message} className="hint">
            {remark.message} {remark.at === null ? null : <ShowPlace spot={spotAt('split', remark.at)} />}
          </p>
        ))}
    </fieldset>
  );
}

interface PlanCardProps {
  readonly plan: PlanView;
  readonly part: PartView;
  readonly isChosen: boolean;
  onChoose(): void;
}

const PlanCard = memo(function PlanCard({ plan, part, isChosen, onChoose }: PlanCardProps) {
  const say = useSay();
  const picture = useMemo(
    () => ({
      bounds: part.box,
      inks: [{ d: part.d, fill: 'wood' as const, stroke: 'soft' as const, widthPx: 1 }, ...seamInks(plan)],
      captions: [],
      things: [],
    }),
    [plan, part],
  );
  const held = plan.isPlated ? plan.heldWithPlatesMm : plan.heldByGlueMm;
  const places = {
    n: plan.pieces.length,
    held: say.percent(plan.lengthMm > 0 ? Math.min(1, held / plan.lengthMm) : 1),
  };
  const knobs = plan.seams.reduce((sum, seam) => sum + seam.knobs, 0);
  return (
    <label className={isChosen ? 'plan is-chosen' : 'plan'}>
      <input
        className="only-read"
        type="radio"
        name={say.t('plan.name', { part: part.id })}
        checked={isChosen}
        onChange={onChoose}
      />
      <Thumbnail picture={picture} width={96} height={72} />
      <span>
        {plan.visibleLengthMm < 0.05
          ? say.t('plan.hidden', places)
          : say.t('plan.shows', { ...places, length: say.length(plan.visibleLengthMm, 0) })}
      </span>
      <small>
        {[
          say.t('plan.knobs', { n: knobs }),
          ...(plan.leastNeckMm > 0 ? [say.t('plan.neck', { length: say.length(plan.leastNeckMm) })] : []),
          ...plan.merits.map((merit) => (isMerit(merit) ? say.t(MERITS[merit]) : merit)),
        ].join(', ')}
      </small>
    </label>
  );
});
