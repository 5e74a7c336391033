import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react';
import type { BoardsLook } from '../picture/boards-picture.ts';
import { keyTarget } from '../picture/pictures.ts';
import { type HungSheet, hungAs, sheetAt } from '../picture/wall.ts';
import type { SceneTools, WorldPoint } from '../scene/scene.tsx';
import { movedByHand } from '../state/by-hand.ts';
import { type Observable, observable } from '../state/observable.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { placedName } from '../state/piece-name.ts';
import { useSay } from '../state/use-say.ts';
import type { TouchAnswer } from '../workers/api.ts';
import type { BoardsView, PlacementView } from '../workers/views.ts';
import { whyBlocked } from './why-blocked.ts';

/** A piece in the hand: where it is, and what was found there. */
export interface InHand {
  readonly placement: PlacementView;
  readonly sheet: number;
  readonly answer: TouchAnswer | null;
}

export interface Hand {
  readonly held: BoardsLook['held'];
  readonly tools: SceneTools;
  select(key: string | null): void;
}

/** The piece in hand is shared by the wall and the words beside it. */
export const inHand: Observable<InHand | null> = observable<InHand | null>(null);

/** Moving a piece by hand: drag the selected one, or take it with m and move it with the arrow keys. */
export function useHand(view: BoardsView, hung: readonly HungSheet[]): Hand {
  const session = useSession();
  const say = useSay();
  const { placementId } = useValue(session.gaze);
  const current = useValue(inHand);
  const grip = useRef<WorldPoint | null>(null);
  const [asking] = useState(() => ({ isBusy: false, next: null as InHand | null }));

  useEffect(() => () => inHand.set(null), []);

  const ask = (hand: InHand): void => {
    inHand.set(hand);
    if (asking.isBusy) {
      asking.next = hand;
      return;
    }
    asking.isBusy = true;
    session.client
      .ask((api) => api.touch({ sheet: hand.sheet, placement: hand.placement }))
      .then((answer) => {
        const now = inHand.get();
        if (now !== null && now.placement.id === hand.placement.id) {
          const isSame =
            now.placement.x === hand.placement.x &&
            now.placement.y === hand.placement.y &&
            now.placement.turnDeg === hand.placement.turnDeg;
          inHand.set({ ...now, answer: isSame ? answer : now.answer });
        }
      })
      .catch(() => undefined)
      .finally(() => {
        asking.isBusy = false;
        const { next } = asking;
        asking.next = null;
        if (next !== null && inHand.get() !== null) ask(inHand.get() ?? next);
      });
  };
  const take = (id: string): InHand | null => {
    const sheet = view.sheets.findIndex((candidate) => candidate.placements.some((placement) => placement.id === id));
    const placement = view.sheets[sheet]?.placements.find((candidate) => candidate.id === id);
    return placement === undefined ? null : { placement, sheet, answer: null };
  };
  const drop = async (): Promise<void> => {
    const hand = inHand.get();
    if (hand === null) return;
    const answer = await session.client.ask((api) => api.touch({ sheet: hand.sheet, placement: hand.placement }));
    inHand.set(null);
    const place = answer.isFree
      ? hand.placement
      : answer.nearest === null
        ? null
        : { ...hand.placement, ...answer.nearest };
    if (place === null) {
      session.notices.say(say.t('notice.no-room', { why: whyBlocked(answer.why, view, say) }), 'look');
      return;
    }
    if (!answer.isFree) session.notices.say(say.t('notice.nearest'));
    session.act(say.t('step.piece-moved', { piece: placedName(view, hand.placement.id, say) }), (before) =>
      movedByHand(before, view, place, hand.sheet),
    );
  };
  const turn = (degrees: number): void => {
    const hand = inHand.get();
    if (hand === null) return;
    ask({ ...hand, placement: turnedAboutMiddle(view, hand.placement, degrees) });
  };

  const tools: SceneTools = {
    onGrab: (at, key) => {
      const target = keyTarget(key);
      if (placementId === null || target?.kind !== 'placement' || target.id !== placementId) return false;
      const hand = take(placementId);
      if (hand === null) return false;
      grip.current = at;
      inHand.set(hand);
      return true;
    },
    onDrag: (at) => {
      const hand = inHand.get();
      const from = grip.current;
      if (hand === null || from === null) return;
      grip.current = at;
      const below = sheetAt(hung, at.x, at.y)?.index ?? hand.sheet;
      const before = hungAs(hung, hand.sheet);
      const after = hungAs(hung, below);
      const shift = { x: (before?.x ?? 0) - (after?.x ?? 0), y: (before?.y ?? 0) - (after?.y ?? 0) };
      const placement = {
        ...hand.placement,
        x: hand.placement.x + at.x - from.x + shift.x,
        y: hand.placement.y + at.y - from.y + shift.y,
      };
      ask({ placement, sheet: below, answer: hand.answer });
    },
    onDrop: () => void session.attempt(drop),
    onKey: (event: KeyboardEvent) => {
      const hand = inHand.get();
      if (hand === null) {
        if (event.key !== 'm' || placementId === null) return false;
        const taken = take(placementId);
        if (taken !== null) ask(taken);
        return true;
      }
      const step = event.shiftKey ? 10 : 1;
      const moves: Readonly<Record<string, readonly [number, number]>> = {
        ArrowLeft: [-step, 0],
        ArrowRight: [step, 0],
        ArrowUp: [0, -step],
        ArrowDown: [0, step],
      };
      const move = moves[event.key];
      if (move !== undefined) {
        ask({
          ...hand,
          placement: { ...hand.placement, x: hand.placement.x + move[0], y: hand.placement.y + move[1] },
        });
      } else if (event.key === 'Enter') void session.attempt(drop);
      else if (event.key === 'Escape') inHand.set(null);
      else if (event.key === 'r' || event.key === 'R') turn(event.key === 'r' ? 90 : -90);
      else return false;
      return true;
    },
  };

  const held = useMemo(
    () =>
      current === null
        ? null
        : { placement: current.placement, sheet: current.sheet, isFree: current.answer?.isFree ?? true },
    [current],
  );
  return {
    held,
    tools,
    select: (key) => {
      const target = keyTarget(key);
      const id = target?.kind === 'placement' ? target.id : null;
      const pieceId = view.sheets
        .flatMap((sheet) => sheet.placements)
        .find((placement) => placement.id === id)?.pieceId;
      const part = view.kinds.find((kind) => kind.pieceId === pieceId)?.partId ?? null;
      session.gaze.update((gaze) => ({ ...gaze, placementId: id, partId: part }));
    },
  };
}

/** A placement turned on the spot: the middle of its box stays where it is. */
export function turnedAboutMiddle(view: BoardsView, placement: PlacementView, degrees: number): PlacementView {
  const kind = view.kinds.find((candidate) => candidate.pieceId === placement.pieceId);
  if (kind === undefined) return placement;
  const middle = { x: (kind.box.minX + kind.box.maxX) / 2, y: (kind.box.minY + kind.box.maxY) / 2 };
  const before = spotOf(placement, middle);
  const turnDeg = (((placement.turnDeg + degrees) % 360) + 360) % 360;
  const after = spotOf({ ...placement, turnDeg }, middle);
  return { ...placement, turnDeg, x: placement.x + before.x - after.x, y: placement.y + before.y - after.y };
}

function spotOf(placement: PlacementView, point: WorldPoint): WorldPoint {
  const radians = (placement.turnDeg * Math.PI) / 180;
  const x = placement.mirrored ? -point.x : point.x;
  return {
    x: x * Math.cos(radians) - point.y * Math.sin(radians) + placement.x,
    y: x * Math.sin(radians) + point.y * Math.cos(radians) + placement.y,
  };
}
