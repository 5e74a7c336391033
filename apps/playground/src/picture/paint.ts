import type { Spot } from '../workers/views.ts';
import type { Caption, Ink, Picture, Tint, Tone } from './ink.ts';
import type { Size, Viewport } from './viewport.ts';

export type Palette = Readonly<Record<Tone, string>>;

/** Paths are parsed once; the oldest half is forgotten when there are more than this many. */
const PATHS_KEPT = 6000;

/** Parsed paths by their data. One per scene, so that nothing is shared behind anybody's back. */
export class PathCache {
  private readonly paths = new Map<string, Path2D>();

  get(d: string): Path2D {
    const known = this.paths.get(d);
    if (known !== undefined) return known;
    if (this.paths.size > PATHS_KEPT) {
      for (const key of [...this.paths.keys()].slice(0, PATHS_KEPT / 2)) this.paths.delete(key);
    }
    const path = new Path2D(d);
    this.paths.set(d, path);
    return path;
  }
}

/** Where a picture is being drawn: `pixelRatio` device pixels per CSS pixel. */
export interface Easel {
  readonly context: CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;
  readonly size: Size;
  readonly pixelRatio: number;
  readonly palette: Palette;
  readonly paths: PathCache;
}

/** Inks and captions drawn in one step: about a millisecond of a desk computer. */
const INKS_A_STEP = 24;

/**
 * A canvas for `paintInSteps`: kept in memory rather than on the graphics card, since its pixels are asked for after every step.
 */
export function stepwiseContext(canvas: OffscreenCanvas): OffscreenCanvasRenderingContext2D | null {
  return canvas.getContext('2d', { willReadFrequently: true });
}

/**
 * Draw a picture step by step, so that others can be drawn in between. The first step clears the canvas.
 * @remarks Browsers put drawing off until pixels are wanted; asking for one makes each step pay for itself, instead of the last
 * one for all.
 */
export function* paintInSteps(
  easel: Easel,
  picture: Pick<Picture, 'inks' | 'captions'>,
  view: Viewport,
): Generator<void, void> {
  const { context, size, pixelRatio } = easel;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, size.width * pixelRatio, size.height * pixelRatio);
  let drawn = 0;
  for (const item of [...picture.inks, ...picture.captions]) {
    if ('text' in item) paintCaption(easel, item, view);
    else paintInk(easel, item, view);
    drawn += 1;
    if (drawn % INKS_A_STEP !== 0) continue;
    context.getImageData(0, 0, 1, 1);
    yield;
  }
  context.getImageData(0, 0, 1, 1);
}

/** Draw a whole picture at once. */
export function paintAtOnce(easel: Easel, picture: Picture, view: Viewport): void {
  for (const _ of paintInSteps(easel, picture, view));
}

function setWorldTransform(easel: Easel, view: Viewport): void {
  const k = view.scale * easel.pixelRatio;
  easel.context.setTransform(
    k,
    0,
    0,
    k,
    (easel.size.width / 2 - view.centreX * view.scale) * easel.pixelRatio,
    (easel.size.height / 2 - view.centreY * view.scale) * easel.pixelRatio,
  );
}

function applySpot(context: Easel['context'], spot: Spot): void {
  context.translate(spot.x, spot.y);
  context.rotate((spot.turnDeg * Math.PI) / 180);
  if (spot.mirrored) context.scale(-1, 1);
}

function paintInk(easel: Easel, ink: Ink, view: Viewport): void {
  const { context } = easel;
  setWorldTransform(easel, view);
  if (ink.spot !== undefined) applySpot(context, ink.spot);
  const path = easel.paths.get(ink.d);
  context.globalAlpha = ink.alpha ?? 1;
  if (ink.fill !== undefined) {
    context.fillStyle = colourOf(ink.fill, easel.palette);
    context.fill(path, 'evenodd');
  }
  if (ink.stroke !== undefined) {
    context.strokeStyle = colourOf(ink.stroke, easel.palette);
    context.lineWidth = ink.widthMm ?? (ink.widthPx ?? 1) / view.scale;
    context.lineJoin = 'round';
    context.lineCap = 'round';
    context.setLineDash((ink.dashPx ?? []).map((dash) => dash / view.scale));
    context.stroke(path);
  }
}

function paintCaption(easel: Easel, caption: Caption, view: Viewport): void {
  if (caption.leastScale !== undefined && view.scale < caption.leastScale) return;
  const { context, pixelRatio, size } = easel;
  context.setTransform(pixelRatio, 0, 0, pixelRatio, 0, 0);
  context.globalAlpha = 1;
  context.font = `${caption.sizePx}px system-ui, sans-serif`;
  context.textAlign = caption.align;
  context.textBaseline = 'middle';
  const x = (caption.x - view.centreX) * view.scale + size.width / 2 + (caption.dxPx ?? 0);
  const y = (caption.y - view.centreY) * view.scale + size.height / 2 + (caption.dyPx ?? 0);
  if (caption.hasHalo === true) {
    // words on a painted part stay readable whatever its paint
    context.setLineDash([]);
    context.lineWidth = 4;
    context.lineJoin = 'round';
    context.strokeStyle = easel.palette.card;
    context.strokeText(caption.text, x, y);
  }
  context.fillStyle = colourOf(caption.tint, easel.palette);
  context.fillText(caption.text, x, y);
}

export function colourOf(tint: Tint, palette: Palette): string {
  return tint.startsWith('#') ? tint : palette[tint as Tone];
}

/** The topmost selectable thing at a world point (mm), or null. Boxes first, exact outline second. */
export function thingAt(
  context: Easel['context'],
  paths: PathCache,
  picture: Picture,
  x: number,
  y: number,
): string | null {
  const boxes = new Map(picture.things.map((thing) => [thing.key, thing.box]));
  context.save();
  context.setTransform(1, 0, 0, 1, 0, 0);
  let found: string | null = null;
  for (let i = picture.inks.length - 1; i >= 0 && found === null; i--) {
    const ink = picture.inks[i]!;
    if (ink.key === undefined) continue;
    const box = boxes.get(ink.key);
    if (box !== undefined && (x < box.minX || x > box.maxX || y < box.minY || y > box.maxY)) continue;
    const local = ink.spot === undefined ? { x, y } : intoFrame(ink.spot, x, y);
    if (context.isPointInPath(paths.get(ink.d), local.x, local.y, 'evenodd')) found = ink.key;
  }
  context.restore();
  return found;
}

function intoFrame(spot: Spot, x: number, y: number): { x: number; y: number } {
  const radians = (-spot.turnDeg * Math.PI) / 180;
  const dx = x - spot.x;
  const dy = y - spot.y;
  const rx = dx * Math.cos(radians) - dy * Math.sin(radians);
  const ry = dx * Math.sin(radians) + dy * Math.cos(radians);
  return { x: spot.mirrored ? -rx : rx, y: ry };
}
