import type { Point } from '@underlap/geometry/point';
import type { SeamWish } from '@underlap/job/document';
import { useCallback, useRef, useState } from 'react';
import type { Ink, Picture } from '../picture/ink.ts';
import { useSession } from '../state/page-context.ts';
import { seamWishOf, withSeamWish } from '../state/seam-wish.ts';
import { useSay } from '../state/use-say.ts';
import type { SeamPreview, SettledSeam } from '../workers/api.ts';
import type { PlanView } from '../workers/views.ts';

export interface SeamDrag {
  readonly preview: SeamPreview | null;
  /** The planner is working out what becomes of a seam that was let go. */
  readonly isSettling: boolean;
  /** It cannot be led as drawn: this is what it would be, to be taken or not. */
  readonly offer: SettledSeam | null;
  takeOffer(): void;
  /** Where the hand has taken which seam; null when none is held. */
  readonly held: { readonly seamId: string; readonly at: Point } | null;
  move(seamId: string, at: Point): void;
  /** Let go: the seam is led there if it then runs as drawn; else what it would be is offered. */
  drop(): void;
  giveUp(): void;
  withPreview(picture: Picture): Picture;
}

interface Settling {
  readonly pins: readonly Point[];
  /** Null while the planner is at it. */
  readonly answer: SettledSeam | null;
}

/** Dragging a seam: while held, the worker says how much of it would be hidden and whether the sides still fit. */
export function useSeamDrag(partId: string | null, plan: PlanView | null, wish: Pick<SeamWish, 'pins'>): SeamDrag {
  const session = useSession();
  const say = useSay();
  const [held, setHeld] = useState<SeamDrag['held']>(null);
  const [preview, setPreview] = useState<SeamPreview | null>(null);
  const [settling, setSettling] = useState<Settling | null>(null);
  const turn = useRef(0);
  // one question at a time; the newest waiting one is asked next
  const asking = useRef<{ isBusy: boolean; next: SeamDrag['held'] }>({ isBusy: false, next: null });

  const ask = (question: NonNullable<SeamDrag['held']>): void => {
    if (partId === null) return;
    if (asking.current.isBusy) {
      asking.current.next = question;
      return;
    }
    asking.current.isBusy = true;
    session.client
      .ask((api) => api.previewSeam(partId, question.seamId, question.at))
      .then((answer) => setPreview(answer))
      .catch(() => setPreview(null))
      .finally(() => {
        const { next } = asking.current;
        asking.current = { isBusy: false, next: null };
        if (next !== null) ask(next);
      });
  };
  const end = (): void => {
    turn.current++;
    asking.current.next = null;
    setHeld(null);
    setPreview(null);
    setSettling(null);
  };
  const take = (pins: readonly Point[], planId: string | null): void => {
    if (partId === null) return;
    session.actOnJob(say.t('step.seam-moved'), (job) =>
      withSeamWish(job, partId, { ...seamWishOf(job, partId), plan: planId, pins: [...pins] }),
    );
    end();
  };
  const drop = async (): Promise<void> => {
    if (held === null || partId === null || plan === null) return end();
    const mine = ++turn.current;
    const seam = plan.seams.find((candidate) => candidate.id === held.seamId);
    // a pin that this seam already follows is moved, not joined by a second one
    const others = wish.pins.filter(
      (pin) => seam === undefined || Math.hypot(pin.x - seam.handle.x, pin.y - seam.handle.y) > PIN_REACH_MM,
    );
    const pins = [...others, rounded(held.at)];
    setSettling({ pins, answer: null });
    const answer = await session.client.ask((api) => api.settleSeam(partId, held.seamId, held.at, pins));
    if (mine !== turn.current) return;
    if (answer === null) {
      session.notices.say(say.t('notice.no-seam-there'), 'look');
      end();
    } else if (answer.isAsDrawn) take(pins, answer.planId);
    else setSettling({ pins, answer });
  };

  return {
    preview: held === null ? null : preview,
    isSettling: settling !== null && settling.answer === null,
    offer: settling?.answer ?? null,
    takeOffer: () => {
      if (settling !== null && settling.answer !== null) take(settling.pins, settling.answer.planId);
    },
    held,
    move: (seamId, at) => {
      turn.current++;
      setSettling(null);
      const question = { seamId, at };
      setHeld(question);
      ask(question);
    },
    drop: () => void session.attempt(() => drop()),
    giveUp: end,
    withPreview: useCallback(
      (picture: Picture): Picture => {
        const offer = settling?.answer ?? null;
        if (offer !== null) {
          const lines = offer.lines.flatMap((d): Ink[] => [
            { d, stroke: 'card', widthPx: 6 },
            { d, stroke: 'good', widthPx: 3, dashPx: [9, 5] },
          ]);
          const shown = offer.visible.map((d): Ink => ({ d, stroke: 'look', widthPx: 6 }));
          return { ...picture, inks: [...picture.inks, ...lines, ...shown] };
        }
        if (held === null || preview === null) return picture;
        const inks: Ink[] = [
          { d: preview.d, stroke: 'card', widthPx: 6 },
          { d: preview.d, stroke: 'good', widthPx: 3 },
          ...preview.visible.map((d): Ink => ({ d, stroke: 'look', widthPx: 6 })),
        ];
        return { ...picture, inks: [...picture.inks, ...inks] };
      },
      [held, preview, settling],
    ),
  };
}

/** A pin within this of a seam's middle belongs to that seam, mm. */
const PIN_REACH_MM = 60;

function rounded(point: Point): Point {
  return { x: Math.round(point.x * 10) / 10, y: Math.round(point.y * 10) / 10 };
}
