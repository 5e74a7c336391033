import type { Bounds } from '@underlap/geometry/ring';
import type { Spot } from '../workers/views.ts';

/** Colours that follow the look of the page (light or dark); everything else is `#rrggbb` from the sign itself. */
export type Tone =
  | 'ink'
  | 'soft'
  | 'rule'
  | 'paper'
  | 'card'
  | 'wood'
  | 'board'
  | 'grain'
  | 'good'
  | 'look'
  | 'mark'
  | 'number'
  | 'shade'
  | 'glass';
export type Tint = Tone | `#${string}`;

/** One shape to be drawn: SVG path data in mm, filled by the even-odd rule, then stroked. */
export interface Ink {
  readonly d: string;
  readonly spot?: Spot;
  readonly fill?: Tint;
  readonly stroke?: Tint;
  /** Width of the stroke in CSS px whatever the zoom; `widthMm` grows with the zoom instead. */
  readonly widthPx?: number;
  readonly widthMm?: number;
  readonly dashPx?: readonly number[];
  readonly alpha?: number;
  /** What a click on it selects. */
  readonly key?: string;
}

/** Words in the picture; drawn at `sizePx` whatever the zoom, left out when `leastScale` is not reached. */
export interface Caption {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly sizePx: number;
  readonly align: 'left' | 'center';
  readonly tint: Tint;
  readonly leastScale?: number;
  /** Moved to the right by so much whatever the zoom. */
  readonly dxPx?: number;
  /** And down. */
  readonly dyPx?: number;
  /** Lies on paint: drawn with a rim in the colour of the card. */
  readonly hasHalo?: boolean;
}

/** Something a person can point at: its name is read out and shown. */
export interface Thing {
  readonly key: string;
  readonly name: string;
  readonly box: Bounds;
}

/** A drawing as data: pure functions make it, the canvas and the thumbnails draw it. Later inks lie on top. */
export interface Picture {
  readonly bounds: Bounds;
  readonly inks: readonly Ink[];
  readonly captions: readonly Caption[];
  readonly things: readonly Thing[];
}

/** Bounding box of a box that is mirrored, turned and moved. */
export function boxAt(box: Bounds, spot: Spot): Bounds {
  const radians = (spot.turnDeg * Math.PI) / 180;
  const cos = Math.cos(radians);
  const sin = Math.sin(radians);
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const bx of [box.minX, box.maxX]) {
    for (const by of [box.minY, box.maxY]) {
      const mx = spot.mirrored ? -bx : bx;
      const x = mx * cos - by * sin + spot.x;
      const y = mx * sin + by * cos + spot.y;
      minX = Math.min(minX, x);
      minY = Math.min(minY, y);
      maxX = Math.max(maxX, x);
      maxY = Math.max(maxY, y);
    }
  }
  return { minX, minY, maxX, maxY };
}

/** Path data of a rectangle. */
export function rectanglePath(x: number, y: number, width: number, height: number): string {
  return `M${x} ${y}h${width}v${height}h${-width}z`;
}

/** The smallest box around several; a small one at 0, 0 when there are none. */
export function boxAround(boxes: readonly Bounds[]): Bounds {
  if (boxes.length === 0) return { minX: 0, minY: 0, maxX: 100, maxY: 75 };
  return {
    minX: Math.min(...boxes.map((box) => box.minX)),
    minY: Math.min(...boxes.map((box) => box.minY)),
    maxX: Math.max(...boxes.map((box) => box.maxX)),
    maxY: Math.max(...boxes.map((box) => box.maxY)),
  };
}
