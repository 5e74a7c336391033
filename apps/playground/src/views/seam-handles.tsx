import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { seamWishOf, withSeamWish } from '../state/seam-wish.ts';
import { useSay } from '../state/use-say.ts';
import type { PlanView } from '../workers/views.ts';
import type { SeamDrag } from './use-seam-drag.ts';

interface SeamHandlesProps {
  readonly desk: Desk;
  readonly plan: PlanView;
  readonly partId: string;
  project(x: number, y: number): { x: number; y: number };
  readonly drag: SeamDrag;
}

/** Half side of the square that is forbidden round a seam's middle, mm. */
const FORBID_HALF_MM = 25;

/** One handle on the middle of each seam, to take along; pins of the user as small marks. */
export function SeamHandles({ desk, plan, partId, project, drag }: SeamHandlesProps) {
  const session = useSession();
  const say = useSay();
  const start = useRef<{ pointerX: number; pointerY: number; x: number; y: number } | null>(null);
  const wish = seamWishOf(desk.job, partId);
  const origin = project(0, 0);
  const scale = project(1, 0).x - origin.x;

  const key = (seamId: string, x: number, y: number) => (event: KeyboardEvent) => {
    const step = event.shiftKey ? 10 : 1;
    const moves: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, -step],
      ArrowDown: [0, step],
    };
    const move = moves[event.key];
    const from = drag.held?.seamId === seamId ? drag.held.at : { x, y };
    if (move !== undefined) drag.move(seamId, { x: from.x + move[0], y: from.y + move[1] });
    else if (event.key === 'Enter' && drag.held !== null) drag.drop();
    else if (event.key === 'Escape') drag.giveUp();
    else if (event.key === 'f') forbid(x, y);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const forbid = (x: number, y: number): void => {
    const d = `M${x - FORBID_HALF_MM} ${y - FORBID_HALF_MM}h${2 * FORBID_HALF_MM}v${2 * FORBID_HALF_MM}h${-2 * FORBID_HALF_MM}z`;
    session.actOnJob(say.t('step.no-seam-here'), (job) => {
      const before = seamWishOf(job, partId);
      return withSeamWish(job, partId, { ...before, plan: null, forbidden: [...before.forbidden, d] });
    });
  };

  return (
    <>
      {wish.pins.map((pin) => {
        const at = project(pin.x, pin.y);
        return (
          <button
            key={`${pin.x} ${pin.y}`}
            type="button"
            className="pin is-led"
            style={{ left: at.x, top: at.y }}
            aria-label={say.t('seam.pin')}
            title={say.t('seam.pin-title')}
            onClick={() =>
              session.actOnJob(say.t('step.point-gone'), (job) => {
                const before = seamWishOf(job, partId);
                return withSeamWish(job, partId, {
                  ...before,
                  plan: null,
                  pins: before.pins.filter((other) => other.x !== pin.x || other.y !== pin.y),
                });
              })
            }
          >
            &times;
          </button>
        );
      })}
      <FiguresAtHand drag={drag} project={project} />
      {plan.seams.map((seam, index) => {
        const place = drag.held?.seamId === seam.id ? drag.held.at : seam.handle;
        const at = project(place.x, place.y);
        return (
          <button
            key={seam.id}
            type="button"
            className="seam-handle"
            style={{ left: at.x, top: at.y }}
            aria-label={say.t('seam.handle', { label: seam.label, n: index + 1, all: plan.seams.length })}
            title={say.t('seam.handle-title')}
            onKeyDown={key(seam.id, seam.handle.x, seam.handle.y)}
            onPointerDown={(event: PointerEvent) => {
              event.stopPropagation();
              event.currentTarget.setPointerCapture(event.pointerId);
              start.current = { pointerX: event.clientX, pointerY: event.clientY, ...seam.handle };
            }}
            onPointerMove={(event: PointerEvent) => {
              const from = start.current;
              if (from === null) return;
              drag.move(seam.id, {
                x: from.x + (event.clientX - from.pointerX) / scale,
                y: from.y + (event.clientY - from.pointerY) / scale,
              });
            }}
            onPointerUp={() => {
              if (start.current !== null && drag.held !== null) drag.drop();
              start.current = null;
            }}
            onPointerCancel={() => {
              start.current = null;
              drag.giveUp();
            }}
          >
            <span aria-hidden="true">&#8597;</span>
          </button>
        );
      })}
    </>
  );
}

/** Large, over the hand that drags: how much of the seam would be hidden and held, and whether both sides fit the bed. */
function FiguresAtHand({ drag, project }: Pick<SeamHandlesProps, 'drag' | 'project'>) {
  const say = useSay();
  const { held, preview } = drag;
  if (held === null || preview === null) return null;
  const at = project(held.at.x, held.at.y);
  const fits = preview.fits[0] && preview.fits[1];
  const isGood = fits && preview.hiddenShare > 1 - 1e-6;
  return (
    <div
      className={isGood ? 'at-pointer is-good' : 'at-pointer is-look'}
      style={{ left: at.x, top: at.y - 18 }}
      aria-hidden="true"
    >
      <div className="seam-figures">
        <span>
          <strong>{say.percent(preview.hiddenShare)}</strong>
          {say.t('seam.hidden')}
        </span>
        <span>
          <strong>{say.percent(preview.heldShare)}</strong>
          {say.t('seam.held')}
        </span>
      </div>
      {fits ? null : <span>{say.t('seam.too-large')}</span>}
    </div>
  );
}
