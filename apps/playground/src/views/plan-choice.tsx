import { memo, useMemo } from 'react';
import { seamInks } from '../picture/pictures.ts';
import { Thumbnail } from '../scene/thumbnail.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { seamWishOf, withSeamWish } from '../state/seam-wish.ts';
import type { ArtworkView, PartSplitView, PartView, PlanView } from '../workers/views.ts';
import { count, useSay } from './use-say.ts';

const MERITS: Readonly<Record<string, string>> = {
  fewest: 'fewest pieces',
  'most-hidden': 'most hidden',
  strongest: 'strongest',
};

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
  const drawn = artwork.parts.find((candidate) => candidate.id === part.partId);
  if (drawn === undefined || part.plans.length === 0) return null;
  const proof = part.isProvenFewest
    ? 'Fewer pieces are impossible.'
    : `At least ${part.piecesLowerBound} are needed; best found, not proven.`;
  return (
    <fieldset className="plans">
      <legend>
        <strong>{drawn.name}</strong> can be cut in {count(part.plans.length, 'way')}. <small>{proof}</small>
      </legend>
      <div className="plan-row">
        {part.plans.map((plan) => (
          <PlanCard
            key={plan.id}
            plan={plan}
            part={drawn}
            isChosen={plan.id === part.chosenPlanId}
            onChoose={() =>
              session.actOnJob(`plan ${plan.id} for ${drawn.name}`, (job) =>
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
            {remark.message}
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
  const hidden = plan.visibleLengthMm < 0.05 ? 'all hidden' : `${say.length(plan.visibleLengthMm, 0)} shows`;
  const held = plan.isPlated ? plan.heldWithPlatesMm : plan.heldByGlueMm;
  const knobs = plan.seams.reduce((sum, seam) => sum + seam.knobs, 0);
  return (
    <label className={isChosen ? 'plan is-chosen' : 'plan'}>
      <input className="only-read" type="radio" name={`plan of ${part.id}`} checked={isChosen} onChange={onChoose} />
      <Thumbnail picture={picture} width={96} height={72} />
      <span>
        {count(plan.pieces.length, 'piece')}, {hidden},{' '}
        {say.percent(plan.lengthMm > 0 ? Math.min(1, held / plan.lengthMm) : 1)} held
      </span>
      <small>
        {count(knobs, 'knob')}
        {plan.leastNeckMm > 0 ? `, neck ${say.length(plan.leastNeckMm)}` : ''}
        {plan.merits.length > 0 ? `; ${plan.merits.map((merit) => MERITS[merit] ?? merit).join(', ')}` : ''}
      </small>
    </label>
  );
});
