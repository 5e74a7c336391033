import type { Bounds } from '@underlap/geometry/ring';

/** What of the world is seen: screen = (world - centre) * scale + half the size of the scene. mm and CSS pixels. */
export interface Viewport {
  readonly centreX: number;
  readonly centreY: number;
  readonly scale: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Closest and farthest look, CSS px per mm: a hair is 40 px wide at the one, a house fits at the other. */
const LARGEST_SCALE = 400;
const SMALLEST_SCALE = 0.01;

/** The viewport that shows all of `bounds` with a border of `border` px. */
export function fitView(bounds: Bounds, size: Size, border: number): Viewport {
  const width = Math.max(bounds.maxX - bounds.minX, 1e-3);
  const height = Math.max(bounds.maxY - bounds.minY, 1e-3);
  const scale = Math.min(Math.max(size.width - 2 * border, 1) / width, Math.max(size.height - 2 * border, 1) / height);
  return {
    centreX: (bounds.minX + bounds.maxX) / 2,
    centreY: (bounds.minY + bounds.maxY) / 2,
    scale: clampScale(scale),
  };
}

/** Zoom by a factor; the world point below the given screen point stays where it is. */
export function zoomAt(view: Viewport, size: Size, screenX: number, screenY: number, factor: number): Viewport {
  const scale = clampScale(view.scale * factor);
  const dx = screenX - size.width / 2;
  const dy = screenY - size.height / 2;
  return {
    centreX: view.centreX + dx / view.scale - dx / scale,
    centreY: view.centreY + dy / view.scale - dy / scale,
    scale,
  };
}

/** Move the picture by screen pixels. */
export function panBy(view: Viewport, dx: number, dy: number): Viewport {
  return { ...view, centreX: view.centreX - dx / view.scale, centreY: view.centreY - dy / view.scale };
}

export function toWorld(view: Viewport, size: Size, screenX: number, screenY: number): { x: number; y: number } {
  return {
    x: (screenX - size.width / 2) / view.scale + view.centreX,
    y: (screenY - size.height / 2) / view.scale + view.centreY,
  };
}

export function toScreen(view: Viewport, size: Size, x: number, y: number): { x: number; y: number } {
  return {
    x: (x - view.centreX) * view.scale + size.width / 2,
    y: (y - view.centreY) * view.scale + size.height / 2,
  };
}

/** Keep at least a corner of the bounds in sight, so that nobody gets lost. */
export function keepInSight(view: Viewport, size: Size, bounds: Bounds): Viewport {
  const reachX = (size.width / 2 / view.scale) * 0.9;
  const reachY = (size.height / 2 / view.scale) * 0.9;
  return {
    ...view,
    centreX: Math.min(Math.max(view.centreX, bounds.minX - reachX), bounds.maxX + reachX),
    centreY: Math.min(Math.max(view.centreY, bounds.minY - reachY), bounds.maxY + reachY),
  };
}

function clampScale(scale: number): number {
  return Math.min(Math.max(scale, SMALLEST_SCALE), LARGEST_SCALE);
}

/** A round length for the ruler's divisions: the smallest of 1, 2, 5 x 10^n mm at least `leastPx` wide on screen. */
export function rulerStep(scale: number, leastPx: number): number {
  const least = leastPx / scale;
  const power = 10 ** Math.floor(Math.log10(least));
  const factor = [1, 2, 5, 10].find((candidate) => candidate * power >= least * (1 - 1e-9)) ?? 10;
  return factor * power;
}
