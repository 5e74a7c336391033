import { type RefObject, useEffect, useRef } from 'react';
import type { ViewportHand } from './use-viewport.ts';

/** What a scene does with a pointer that is not panning. Screen px within the scene. */
export interface PointerTools {
  /** Take the gesture (dragging a piece, a seam); false leaves it to panning. */
  onGrab?(at: { x: number; y: number }): boolean;
  onDrag?(at: { x: number; y: number }): void;
  onDrop?(at: { x: number; y: number }): void;
  onClick?(at: { x: number; y: number }): void;
  onHover?(at: { x: number; y: number } | null): void;
}

/** Movement below this many px is a click, not a drag. */
const CLICK_SLACK = 4;

/** Wheel, drag and pinch on a scene. Zooming needs no key; the page scrolls when the pointer is elsewhere. */
export function useGestures(element: RefObject<HTMLElement | null>, hand: ViewportHand, tools: PointerTools): void {
  const latest = useRef({ hand, tools });
  latest.current = { hand, tools };

  useEffect(() => {
    const target = element.current;
    if (target === null) return;
    const pointers = new Map<number, { x: number; y: number }>();
    let travelled = 0;
    let isGrabbed = false;

    const place = (event: MouseEvent): { x: number; y: number } => {
      const box = target.getBoundingClientRect();
      return { x: event.clientX - box.left, y: event.clientY - box.top };
    };
    const wheel = (event: WheelEvent): void => {
      event.preventDefault();
      const pixels = event.deltaMode === 1 ? event.deltaY * 16 : event.deltaY;
      latest.current.hand.zoom(Math.exp(-pixels * (event.ctrlKey ? 0.01 : 0.0015)), place(event));
    };
    const down = (event: PointerEvent): void => {
      if (event.target instanceof Element && event.target.closest('button, input, select, a') !== null) return;
      pointers.set(event.pointerId, place(event));
      travelled = 0;
      if (pointers.size === 1) isGrabbed = latest.current.tools.onGrab?.(place(event)) ?? false;
      target.setPointerCapture(event.pointerId);
    };
    const move = (event: PointerEvent): void => {
      const before = pointers.get(event.pointerId);
      const now = place(event);
      const { hand: viewport, tools: tool } = latest.current;
      if (before === undefined) {
        tool.onHover?.(now);
        return;
      }
      travelled += Math.hypot(now.x - before.x, now.y - before.y);
      const [a, b] = [...pointers.values()];
      pointers.set(event.pointerId, now);
      if (isGrabbed) {
        tool.onDrag?.(now);
      } else if (a !== undefined && b !== undefined) {
        const [c, d] = [...pointers.values()];
        if (c === undefined || d === undefined) return;
        const spread = Math.hypot(c.x - d.x, c.y - d.y) / Math.max(Math.hypot(a.x - b.x, a.y - b.y), 1);
        const middle = { x: (c.x + d.x) / 2, y: (c.y + d.y) / 2 };
        viewport.zoom(spread, middle);
        viewport.pan(middle.x - (a.x + b.x) / 2, middle.y - (a.y + b.y) / 2);
      } else if (travelled > CLICK_SLACK) {
        viewport.pan(now.x - before.x, now.y - before.y);
      }
    };
    const up = (event: PointerEvent): void => {
      if (!pointers.delete(event.pointerId)) return;
      const { tools: tool } = latest.current;
      if (isGrabbed) tool.onDrop?.(place(event));
      else if (travelled <= CLICK_SLACK && event.type === 'pointerup') tool.onClick?.(place(event));
      isGrabbed = false;
    };
    const leave = (): void => latest.current.tools.onHover?.(null);

    target.addEventListener('wheel', wheel, { passive: false });
    target.addEventListener('pointerdown', down);
    target.addEventListener('pointermove', move);
    target.addEventListener('pointerup', up);
    target.addEventListener('pointercancel', up);
    target.addEventListener('pointerleave', leave);
    return () => {
      target.removeEventListener('wheel', wheel);
      target.removeEventListener('pointerdown', down);
      target.removeEventListener('pointermove', move);
      target.removeEventListener('pointerup', up);
      target.removeEventListener('pointercancel', up);
      target.removeEventListener('pointerleave', leave);
    };
  }, [element]);
}
