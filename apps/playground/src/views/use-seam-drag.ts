import type { Point } from '@underlap/geometry/point';
import { useCallback, useRef, useState } from 'react';
import type { Ink, Picture } from '../picture/ink.ts';
import { useSession } from '../state/page-context.ts';
import { seamWishOf, withSeamWish } from '../state/seam-wish.ts';
import type { SeamPreview } from '../workers/api.ts';
import type { PlanView } from '../workers/views.ts';

export interface SeamDrag {
  readonly preview: SeamPreview | null;
  /** Where the hand has taken which seam; null when none is held. */
  readonly held: { readonly seamId: string; readonly at: Point } | null;
  move(seamId: string, at: Point): void;
  /** Let go: the seam is led through the point from now on. */
  drop(): void;
  giveUp(): void;
  withPreview(picture: Picture): Picture;
}

/** Dragging a seam: while held, the worker says how much of it would be hidden and whether the sides still fit. */
export function useSeamDrag(partId: string | null, plan: PlanView | null): SeamDrag {
  const session = useSession();
  const [held, setHeld] = useState<SeamDrag['held']>(null);
  const [preview, setPreview] = useState<SeamPreview | null>(null);
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
    asking.current.next = null;
    setHeld(null);
    setPreview(null);
  };

  return {
    preview: held === null ? null : preview,
    held,
    move: (seamId, at) => {
      const question = { seamId, at };
      setHeld(question);
      ask(question);
    },
    drop: () => {
      if (held !== null && partId !== null && plan !== null) {
        const seam = plan.seams.find((candidate) => candidate.id === held.seamId);
        session.actOnJob('seam moved by hand', (job) => {
          const wish = seamWishOf(job, partId);
          // a pin that this seam already follows is moved, not joined by a second one
          const others = wish.pins.filter(
            (pin) => seam === undefined || Math.hypot(pin.x - seam.handle.x, pin.y - seam.handle.y) > PIN_REACH_MM,
          );
          return withSeamWish(job, partId, { ...wish, plan: null, pins: [...others, rounded(held.at)] });
        });
      }
      end();
    },
    giveUp: end,
    withPreview: useCallback(
      (picture: Picture): Picture => {
        if (held === null || preview === null) return picture;
        const inks: Ink[] = [
          { d: preview.d, stroke: 'card', widthPx: 6 },
          { d: preview.d, stroke: 'good', widthPx: 3 },
          ...preview.visible.map((d): Ink => ({ d, stroke: 'look', widthPx: 6 })),
        ];
        return { ...picture, inks: [...picture.inks, ...inks] };
      },
      [held, preview],
    ),
  };
}

/** A pin within this of a seam's middle belongs to that seam, mm. */
const PIN_REACH_MM = 60;

function rounded(point: Point): Point {
  return { x: Math.round(point.x * 10) / 10, y: Math.round(point.y * 10) / 10 };
}
